/** The text of `explain` and `trace`, as a person in a terminal reads it. */
import { describe, expect, test } from "vitest";
import { swarfline } from "./swarfline.ts";

const HEAD = "%\nG21 G17 G90 G94 G54\n";
const T5 = "T5 M6 (10. DRILL)\nG0 X10. Y20. S1000 M3\nG43 H5 Z50. M8\n";
const END = "G80 M9\nM30\n%\n";

async function explain(text: string, line = "", setup?: string) {
  const files = { "/shop/a.nc": text, ...(setup === undefined ? {} : { "/shop/swarfline.yaml": setup }) };
  const { code, out } = await swarfline(["explain", `a.nc${line}`], { files });
  expect(code).toBe(0);
  return out.replace(/\s+/g, " ");
}

describe("a program without holes says why", () => {
  test.each([
    ["", "No holes in this program: it is empty."],
    ["\n\n", "No holes in this program: it is empty."],
    [
      `${HEAD}G1 X5. F100.\nM30\n%\n`,
      "no drilling cycle runs in it, and no feed move along the tool's axis makes a hole.",
    ],
    [`${HEAD}M98 P1000\nM30\n%\n`, "for what was found in it: Line 3: "],
    [`${HEAD}${T5}G81 X5.\n${END}`, "Line 6: "],
    ["M48\nINCH\nT01C0.8\n%\nX1Y1\n", "Line 1: "],
    [`${HEAD}${"G1 X Y5.\n".repeat(5)}M30\n%\n`, "And 2 more reasons: swarfline check lists them."],
  ])("%j", async (text, why) => {
    expect(await explain(text)).toContain(why);
  });
});

describe("a line without holes", () => {
  const text = `${HEAD}${T5}G99 G81 X10. Y20. Z-10. R2. F100.\n(BETWEEN)\nX30.\n${END}`;

  test.each([
    [1, "The nearest line with holes is 6."],
    [7, "The nearest lines with holes are 6 and 8."],
    [10, "The nearest line with holes is 8."],
  ])("%i names the nearest that has some", async (line, near) => {
    const out = await explain(text, `:${line}`);
    expect(out).toContain(`No holes on line ${line}:`);
    expect(out).toContain(near);
  });

  test("a line with holes says nothing of it", async () => {
    expect(await explain(text, ":8")).not.toContain("No holes");
  });
});

describe("holes of a subprogram", () => {
  const text = `${HEAD}${T5}M98 P100\nG0 X50.\nM98 P100\nM30\nO100\nG81 Z-10. R2. F100.\nG80\nM99\n%\n`;

  test("are told with the lines that call it", async () => {
    expect(await explain(text)).toContain("2 holes, line 11 (called from lines 6, 8): X10.00 Y20.00, X50.00 Y20.00");
  });

  test.each([
    [6, "1 hole, line 11 (called from line 6): X10.00 Y20.00"],
    [8, "1 hole, line 11 (called from line 8): X50.00 Y20.00"],
    [11, "2 holes, line 11 (called from lines 6, 8)"],
  ])("are those of the call on line %i", async (line, holes) => {
    expect(await explain(text, `:${line}`)).toContain(holes);
  });

  test("have the line of their call in the trace", async () => {
    const { out } = await swarfline(["trace", "a.nc"], { files: { "/shop/a.nc": text } });
    expect(
      out
        .split("\n")
        .filter((line) => /^ +11 +feed/.test(line))
        .map((line) => line.trim().split(/ +/).at(-1)),
    ).toEqual(["6", "8"]);
  });
});

describe("what is not known", () => {
  const two = `${HEAD}${T5}G99 G81 X10. Y20. Z-10. R2. F100.\nG80\nT6 M6 (12. DRILL)\nG0 X10. S900 M3\nG43 H6 Z50.\nG81 Z-20. R2. F90.\n${END}`;
  const times = (text: string, part: string) => text.split(part).length - 1;

  test("is said once for all holes, in words, with its reason", async () => {
    const out = await explain(two);
    expect(times(out, "no work material is declared")).toBe(1);
    expect(times(out, "not declared: no machine")).toBe(1);
    expect(out).toContain("Not known for all these holes work material, torque, power, thrust (no work material");
    expect(out).toContain(
      "spindle limit, short-time spindle limit, axis thrust limit, speed limit (not declared: no machine)",
    );
    expect(out).not.toMatch(/limits\.|peakTorque|leadSeconds/);
  });

  test("what one hole lacks stands under that hole", async () => {
    const out = await explain(two);
    expect(out).toContain("not known speed and feed window (no speed and feed window is declared for T6)");
    expect(times(out, "is declared for T5")).toBe(1);
    // Coolant is off for T6: that it has no pressure then is no news.
    expect(times(out, "no coolant is on")).toBe(0);
  });

  test("of a single group stands under it alone", async () => {
    const out = await explain(`${HEAD}${T5}G99 G81 X10. Y20. Z-10. R2. F100.\n${END}`);
    expect(out).not.toContain("all these holes");
    expect(times(out, "no work material is declared")).toBe(1);
  });
});

test("no band is shown where both ends read the same", async () => {
  const setup = `programs: [{ files: a.nc, machine: m, tools: t, workpiece: w }]
machines: { m: { spindle: { maxRpm: 9000, continuous: [{ rpm: 0, torque: 90 }] }, axis: { thrust: 8 kN } } }
tools: { t: [{ T: 5, family: indexable, DC: 26, SIG: 180, LU: 78, ZEFP: 1, edge: general }] }
workpieces: { w: { material: EN-GJL-250, hardness: 200 HB } }
`;
  const out = await explain(`${HEAD}${T5}G99 G81 X10. Y20. Z-10. R2. F100.\n${END}`, ":6", setup);
  expect(out).toContain("estimated between");
  expect(out).not.toMatch(/estimated between ([\d.]+) (\S+) \([^)]*\) and \1 \2/);
});

describe("trace", () => {
  const trace = async (text: string) => (await swarfline(["trace", "a.nc"], { files: { "/shop/a.nc": text } })).out;

  test("names the program, its setup and its units above the columns", async () => {
    const [name, setup, legend, blank, columns] = (await trace(`${HEAD}G0 X5.\nM30\n`)).split("\n");
    expect(name).toBe("a.nc  mm program");
    expect(setup).toBe("no machine · dialect generic-mill · no swarfline.yaml");
    expect(legend).toMatch(/^X, Y, Z where the motion ends, in mm; F as programmed; n in 1\/min; s in seconds;/);
    expect(blank).toBe("");
    expect(columns).toMatch(/^ {2}line {2}motion/);
    expect(await trace("G20\nG0 X5.\nM30\n")).toContain("in inches");
  });

  test("says that nothing moves", async () => {
    expect(await trace("")).toMatch(/\nNo motion: no block of the program moves the machine\.\n$/);
  });
});

test("how operations are counted stands in the help of explain", async () => {
  const { out } = await swarfline(["explain", "--help"], { files: {} });
  expect(out.replace(/\s+/g, " ")).toContain("In JSON `index` and `operation` of a hole count from 0");
});

describe("the way out of an interrupted cut", () => {
  const setup =
    "units: mm\nprograms: [{ files: '*.nc', machine: m, tools: t, workpiece: w }]\n" +
    "machines: { m: { dialect: generic-mill } }\n" +
    "tools: { t: [{ T: 5, family: indexable, DC: 26, SIG: 180, LU: 78, ZEFP: 1, windows: [{ group: P, f: [0.06, 0.1, 0.14] }] }] }\n" +
    "workpieces: { w: { material: C45E, hardness: 190 HB } }\n";
  const hole = "G99 G81 X10. Y20. Z-40. R12. F100.\n";
  const text = `${HEAD}${T5.replace(/ \(.*\)/, "")}(CUT ENTRY INCLINE 30 DEG)\n${hole}X50. (CUT ENTRY FLAT)\n${END}`;

  test("is printed as blocks for its line, and only there", async () => {
    const out = await explain(text, ":7", setup);
    expect(out).toContain(
      "Way out of interrupted-feed, in long hand; read each block before it runs: " +
        "in place of line 7 G99 G0 X10. Y20. G0 Z12. G1 Z-8.6 F50. Z-40. F100. G0 Z12. " +
        "in place of line 8 G99 G81 X50. Z-40. R12. F100. (CUT ENTRY FLAT)",
    );
    expect(await explain(text, "", setup)).not.toContain("Way out of");
    expect(await explain(text, ":2", setup)).not.toContain("Way out of");
  });

  test("where there is none, the reason stands in its place", async () => {
    const out = await explain(text.replace("G81", "G82").replace("R12.", "R12. P500"), ":7", setup);
    expect(out).toContain("interrupted-feed: the feed cannot be split in long hand: the cycle of line 7 dwells");
  });
});
