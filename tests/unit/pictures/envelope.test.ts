import fc from "fast-check";
import { expect, test } from "vitest";
import { available } from "../../../server/mechanics/envelope.ts";
import { curveAt, curveOf, envelopeSvg } from "../../../server/pictures/envelope.ts";
import type { Spindle } from "../../../server/setup/types.ts";
import { attributes, parseXml } from "./xml.ts";

const spindle: Spindle = {
  maxRpm: 10_000,
  continuous: [
    { rpm: 0, torque: 95, power: null },
    { rpm: 1500, torque: 95, power: null },
    { rpm: 6000, torque: null, power: 15 },
  ],
  shortTime: {
    minutes: 30,
    points: [
      { rpm: 0, torque: 120, power: null },
      { rpm: 1500, torque: null, power: 18.5 },
      { rpm: 6000, torque: null, power: 18.5 },
    ],
  },
  efficiency: 0.87,
  drive: "belt",
};
const power = { low: 4, nominal: 5, high: 6.5 };

test("the picture is one well-formed document of plain ASCII with both curves, both axes and the point", () => {
  const svg = envelopeSvg({ spindle, rpm: 2400, power, title: "T7 <&>\u00b5" });
  expect(svg).toMatch(/^[\x20-\x7e]*$/);
  const names = parseXml(svg);
  expect(names[0]).toBe("svg");
  for (const id of ["continuous", "short-time", "band", "point"]) expect(attributes(svg, id), id).not.toBeNull();
  for (const label of ["kW", "hp", "1/min", "continuous", "short time, 30 min", "T7 &lt;&amp;&gt;&#181;"]) {
    expect(svg).toContain(`>${label}</text>`);
  }
});

test("the point lies inside the axes, on its band, and below a curve that it fits", () => {
  const svg = envelopeSvg({ spindle, rpm: 2400, power, title: "T7" });
  const point = attributes(svg, "point");
  const band = attributes(svg, "band");
  const x = Number(point?.cx);
  const y = Number(point?.cy);
  expect(x).toBeGreaterThan(44);
  expect(x).toBeLessThan(356);
  expect(x).toBe(Number(band?.x1));
  expect(y).toBeLessThan(Number(band?.y1));
  expect(y).toBeGreaterThan(Number(band?.y2));
  const curve = (attributes(svg, "continuous")?.d ?? "")
    .split(/[ML]/)
    .slice(1)
    .map((p) => p.split(" ").map(Number));
  const near = curve.reduce((a, b) => (Math.abs((b[0] ?? 0) - x) < Math.abs((a[0] ?? 0) - x) ? b : a));
  expect(near[1]).toBeLessThan(y);
});

test("a point over the continuous curve differs in form, not in colour alone", () => {
  const fits = envelopeSvg({ spindle, rpm: 2400, power, title: "T7" });
  const over = envelopeSvg({ spindle, rpm: 2400, power: { low: 14, nominal: 16, high: 19 }, title: "T7" });
  expect(fits).toContain('<circle id="point"');
  expect(over).not.toContain("<circle");
  expect(attributes(over, "point")?.d).toMatch(/^M/);
});

test("unknown power marks the speed and says so; no spindle curve still draws", () => {
  const unknown = envelopeSvg({ spindle, rpm: 2400, power: null, title: "T7" });
  parseXml(unknown);
  expect(attributes(unknown, "speed")).not.toBeNull();
  expect(attributes(unknown, "point")).toBeNull();
  expect(unknown).toContain("T7: power unknown");
  const bare: Spindle = { maxRpm: null, continuous: [], shortTime: null, efficiency: 1, drive: null };
  parseXml(envelopeSvg({ spindle: bare, rpm: null, power: null, title: "" }));
});

const point = fc.record({
  rpm: fc.integer({ min: 0, max: 15_000 }),
  value: fc.double({ min: 0.5, max: 200, noNaN: true }),
  torque: fc.boolean(),
});

test("the curve that is drawn is the one that the loads are held against", () => {
  fc.assert(
    fc.property(
      fc.uniqueArray(point, { minLength: 1, maxLength: 6, selector: (p) => p.rpm }),
      fc.double({ min: 0.5, max: 1, noNaN: true }),
      fc.integer({ min: 1, max: 20_000 }),
      (made, efficiency, rpm) => {
        const points = made
          .sort((a, b) => a.rpm - b.rpm)
          .map(({ rpm: n, value, torque }) => ({
            rpm: n,
            torque: torque ? value : null,
            power: torque ? null : value,
          }));
        const given = available(points, efficiency, rpm);
        fc.pre(given !== null && rpm !== points[0]?.rpm);
        // A power point at standstill has no torque: neither can be said there.
        fc.pre(!(points[0]?.rpm === 0 && points[0].power !== null));
        const drawn = curveAt(curveOf(points, efficiency, 20_000), rpm) ?? Number.NaN;
        expect(Math.abs(drawn - (given?.power ?? 0))).toBeLessThan(1e-6 * Math.max(1, drawn));
      },
    ),
  );
});

test("every picture of any numbers is well-formed and holds its point", () => {
  const number = fc.double({ min: 0, max: 1e5, noNaN: true });
  fc.assert(
    fc.property(
      number,
      number,
      number,
      fc.string(),
      fc.array(point, { maxLength: 5 }),
      (rpm, low, more, title, points) => {
        const band = { low, nominal: low + more / 2, high: low + more };
        const continuous = points.map(({ rpm: n, value }) => ({ rpm: n, torque: null, power: value }));
        const svg = envelopeSvg({ spindle: { ...spindle, continuous }, rpm, power: band, title });
        parseXml(svg);
        expect(svg).not.toMatch(/NaN|Infinity|undefined/);
        const at = attributes(svg, "band");
        if (at === null) return;
        expect(Number(at.y2)).toBeGreaterThanOrEqual(29);
        expect(Number(at.y1)).toBeLessThanOrEqual(175);
      },
    ),
  );
});
