/**
 * The spindle's envelope with the operating point: power over speed, kW on the left and hp on the right, as the cutter
 * gets it (motor times efficiency). Colours are mid tones that read on a dark and on a light editor, because a picture
 * in a hover cannot know the theme; the two curves and the point also differ in form.
 */
import type { EnvelopePoint, Spindle } from "../setup/types.ts";
import { numberIn } from "../units/wording.ts";
import { roundAxis } from "./axis.ts";
import { type Attributes, element, path, text } from "./svg.ts";

type Point = readonly [rpm: number, powerKw: number];

export interface EnvelopeInput {
  readonly spindle: Spindle;
  /** 1/min; null: no operating point is drawn. */
  readonly rpm: number | null;
  /** kW at the cutter; null: unknown, then only the speed is marked. */
  readonly power: { readonly low: number; readonly nominal: number; readonly high: number } | null;
  /** What the point is: `T7: 5.2 kW (7.0 hp)`. */
  readonly title: string;
}

const WIDTH = 440;
const HEIGHT = 180;
const LEFT = 44;
const RIGHT = 44;
const TOP = 28;
const BOTTOM = 34;
const GREY = "#808080";
const CONTINUOUS = "#3a86d4";
const SHORT_TIME = "#c07a1e";
const POINT_FITS = "#2f9a58";
const POINT_OVER = "#d6454d";

/** A whole SVG document, ASCII only. */
export function envelopeSvg(input: EnvelopeInput): string {
  const { spindle, rpm, power } = input;
  const curves = [spindle.continuous, spindle.shortTime?.points ?? []].filter((points) => points.length > 0);
  const lastRpm = Math.max(0, ...curves.flatMap((points) => points.map((p) => p.rpm)));
  const xAxis = roundAxis(Math.max(spindle.maxRpm ?? lastRpm, lastRpm, rpm ?? 0, 1) * 1.0001, 5);
  const continuous = curveOf(spindle.continuous, spindle.efficiency, spindle.maxRpm ?? lastRpm);
  const shortTime = curveOf(spindle.shortTime?.points ?? [], spindle.efficiency, spindle.maxRpm ?? lastRpm);
  const tallest = Math.max(0, ...continuous.map((p) => p[1]), ...shortTime.map((p) => p[1]), power?.high ?? 0);
  const yAxis = roundAxis(tallest * 1.05, 3);

  const x = (value: number): number => LEFT + ((WIDTH - LEFT - RIGHT) * value) / xAxis.end;
  const y = (value: number): number => HEIGHT - BOTTOM - ((HEIGHT - TOP - BOTTOM) * value) / yAxis.end;
  const at = (points: readonly Point[]): (readonly [number, number])[] => points.map(([n, p]) => [x(n), y(p)]);

  const parts: string[] = [element("title", {}, "Power at the cutter over spindle speed")];
  for (const tick of yAxis.ticks) {
    parts.push(
      element("line", { x1: LEFT, x2: WIDTH - RIGHT, y1: y(tick), y2: y(tick), stroke: GREY, "stroke-opacity": 0.3 }),
    );
    parts.push(text(LEFT - 5, y(tick) + 4, short(tick), { "text-anchor": "end" }));
    parts.push(text(WIDTH - RIGHT + 5, y(tick) + 4, short(numberIn(tick, "power", "inch"))));
  }
  for (const tick of xAxis.ticks) {
    parts.push(element("line", { x1: x(tick), x2: x(tick), y1: y(0), y2: y(0) + 4, stroke: GREY }));
    parts.push(text(x(tick), HEIGHT - BOTTOM + 16, short(tick), { "text-anchor": "middle" }));
  }
  parts.push(text(LEFT - 5, TOP - 14, "kW", { "text-anchor": "end" }));
  parts.push(text(WIDTH - RIGHT + 5, TOP - 14, "hp"));
  parts.push(text((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 4, "1/min", { "text-anchor": "middle" }));

  if (continuous.length > 0) {
    parts.push(path(at(continuous), { id: "continuous", stroke: CONTINUOUS, "stroke-width": 2 }));
  }
  if (shortTime.length > 0) {
    parts.push(
      path(at(shortTime), { id: "short-time", stroke: SHORT_TIME, "stroke-width": 2, "stroke-dasharray": "6 3" }),
    );
  }
  parts.push(legend(continuous.length > 0, spindle.shortTime === null ? null : spindle.shortTime.minutes));
  if (rpm !== null && rpm > 0) parts.push(operatingPoint(input, rpm, x, y, [continuous, shortTime]));

  const style: Attributes = {
    xmlns: "http://www.w3.org/2000/svg",
    width: WIDTH,
    height: HEIGHT,
    viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
    "font-family": "sans-serif",
    "font-size": 11,
    fill: GREY,
    role: "img",
  };
  return element("svg", style, ...parts);
}

/**
 * The corners of an envelope as the cutter gets it. Between its points power runs straight over speed, beyond the last
 * it holds; below the first point its torque holds, and above it torque never exceeds that of the first torque point
 * (without one, of the first power point).
 * @param maxRpm where the curve ends, 1/min
 */
export function curveOf(points: readonly EnvelopePoint[], efficiency: number, maxRpm: number): Point[] {
  const corners: Point[] = [];
  for (const point of points) {
    const kw = point.power ?? (point.torque === null ? null : kilowatts(point.torque, point.rpm));
    if (kw !== null) corners.push([point.rpm, kw * efficiency]);
  }
  corners.sort((a, b) => a[0] - b[0]);
  const last = corners.at(-1);
  if (last === undefined) return [];
  if (last[0] < maxRpm) corners.push([maxRpm, last[1]]);
  const slope = capSlope(points, corners, efficiency);
  const capped: Point[] = [];
  corners.forEach((corner, i) => {
    const before = corners[i - 1];
    if (before === undefined) {
      if (corner[0] > 0) capped.push([0, 0], corner);
    } else {
      const meet = meeting(before, corner, slope);
      if (meet !== null) capped.push(meet);
    }
    const most = Math.min(corner[1], slope * corner[0]);
    const top = capped.at(-1);
    if (top === undefined || top[0] !== corner[0] || top[1] !== most) capped.push([corner[0], most]);
  });
  return capped;
}

/** Largest power per speed, kW per 1/min. */
function capSlope(points: readonly EnvelopePoint[], corners: readonly Point[], efficiency: number): number {
  const torque = points.find((p) => p.torque !== null)?.torque ?? null;
  if (torque !== null) return kilowatts(torque, 1) * efficiency;
  const first = corners.find((corner) => corner[0] > 0);
  return first === undefined ? Number.POSITIVE_INFINITY : first[1] / first[0];
}

/** Where a straight piece crosses power = slope * rpm, strictly inside it. */
function meeting(a: Point, b: Point, slope: number): Point | null {
  const above = a[1] - slope * a[0];
  const below = b[1] - slope * b[0];
  if (!Number.isFinite(slope) || above * below >= 0) return null;
  const share = above / (above - below);
  const rpm = a[0] + share * (b[0] - a[0]);
  return [rpm, slope * rpm];
}

/** P = 2 pi M n / 60 000, kW from N·m and 1/min. */
function kilowatts(torque: number, rpm: number): number {
  return (2 * Math.PI * torque * rpm) / 60_000;
}

/** Power of a curve at a speed, straight between its corners; null: no curve. */
export function curveAt(curve: readonly Point[], rpm: number): number | null {
  for (let i = 0; i < curve.length; i++) {
    const [n, p] = curve[i] ?? [0, 0];
    if (n < rpm) continue;
    const before = curve[i - 1];
    if (before === undefined || n === before[0]) return p;
    return before[1] + ((p - before[1]) * (rpm - before[0])) / (n - before[0]);
  }
  return curve.at(-1)?.[1] ?? null;
}

function legend(continuous: boolean, minutes: number | null): string {
  const parts: string[] = [];
  let left = LEFT + 8;
  const entry = (name: string, stroke: string, dash: string): void => {
    const line = {
      x1: left,
      x2: left + 22,
      y1: TOP - 18,
      y2: TOP - 18,
      stroke,
      "stroke-width": 2,
      "stroke-dasharray": dash,
    };
    parts.push(element("line", line), text(left + 27, TOP - 14, name));
    left += 36 + name.length * 6;
  };
  if (continuous) entry("continuous", CONTINUOUS, "none");
  if (minutes !== null) entry(minutes > 0 ? `short time, ${short(minutes)} min` : "short time", SHORT_TIME, "6 3");
  return parts.join("");
}

function operatingPoint(
  input: EnvelopeInput,
  rpm: number,
  x: (rpm: number) => number,
  y: (kw: number) => number,
  curves: readonly (readonly Point[])[],
): string {
  const { power, title } = input;
  const px = x(rpm);
  if (power === null) {
    const line = { x1: px, x2: px, y1: y(0), y2: TOP, stroke: GREY, "stroke-dasharray": "2 3", id: "speed" };
    return element("line", line) + text(px + 5, TOP + 12, `${title}: power unknown`);
  }
  const over =
    power.nominal > (curveAt(curves.find((curve) => curve.length > 0) ?? [], rpm) ?? Number.POSITIVE_INFINITY);
  const stroke = over ? POINT_OVER : POINT_FITS;
  const bar = { stroke, "stroke-width": 2 };
  const end = (kw: number): string => element("line", { x1: px - 4, x2: px + 4, y1: y(kw), y2: y(kw), ...bar });
  const dot = over
    ? path(
        [
          [px, y(power.nominal) - 6],
          [px + 6, y(power.nominal)],
          [px, y(power.nominal) + 6],
          [px - 6, y(power.nominal)],
          [px, y(power.nominal) - 6],
        ],
        { id: "point", fill: stroke },
      )
    : element("circle", { id: "point", cx: px, cy: y(power.nominal), r: 4.5, fill: stroke });
  const onRight = px > WIDTH - RIGHT - 150;
  const label = text(px + (onRight ? -9 : 9), Math.max(TOP + 10, y(power.nominal) - 6), title, {
    "text-anchor": onRight ? "end" : "start",
    fill: stroke,
    "font-weight": "bold",
  });
  return (
    element("line", { id: "band", x1: px, x2: px, y1: y(power.low), y2: y(power.high), ...bar }) +
    end(power.low) +
    end(power.high) +
    dot +
    label
  );
}

function short(value: number): string {
  return Number(value.toPrecision(3)).toString();
}
