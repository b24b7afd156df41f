/** How much of the drill is in metal over depth, with the interrupted zones by class. */
import type { UnitSystem } from "../units/quantities.ts";
import { numberIn, unitIn } from "../units/wording.ts";
import { type DepthRange, depthRange, spread, type Tick, ticksWithin } from "./engagement-scale.ts";
import {
  CLASSES,
  classHatch,
  classPattern,
  classStroke,
  type Drawing,
  type EngagementClass,
  framed,
  GREY,
  type Key,
  legend,
  METAL,
  RIM,
  textWidth,
} from "./engagement-style.ts";
import { sayHeight, sayShare } from "./engagement-words.ts";
import { element, path, text } from "./svg.ts";

export interface EngagementSample {
  /** Height of the tip, mm. */
  readonly z: number;
  /** Shares in metal, 0 to 1. */
  readonly area: number;
  readonly rim: number;
  /** Normalised side force. */
  readonly side: number;
}

export interface EngagementZone {
  /** mm */
  readonly fromZ: number;
  readonly toZ: number;
  readonly class: EngagementClass;
}

export interface EngagementCurveInput {
  /** From above to below. */
  readonly samples: readonly EngagementSample[];
  readonly zones: readonly EngagementZone[];
  /** mm; null: there is none. */
  readonly firstContactZ: number | null;
  readonly fullZ: number | null;
  readonly startZ: number;
  readonly endZ: number;
  readonly worstZ: number | null;
  /** Drawn down to this height only: below it the drill is whole in metal to the end. Left out: down to the end. */
  readonly cutZ?: number | undefined;
  readonly axis: "x" | "y" | "z";
  readonly system: UnitSystem;
}

const HEIGHT = 240;
const TOP = 34;
const BOTTOM = 58;
const PLOT = 154;
const INSET = 6;
/** The strip of the zones, right of the plot. */
const STRIP = 12;
/** From the strip to the labels. */
const LEAD = 22;
const LINE = 14;
const END = HEIGHT - BOTTOM;
/** The whole is widened for long labels only. */
const WIDTH = 440;
/** Zones told one by one in the description. */
const TOLD = 8;

type Place = readonly [x: number, y: number];

/** A whole SVG document, ASCII only. */
export function engagementCurveSvg(input: EngagementCurveInput): string {
  return framed(curveDrawing(input));
}

export function curveDrawing(input: EngagementCurveInput): Drawing {
  const { system } = input;
  const samples = input.samples.filter(({ z }) => Number.isFinite(z));
  const zones = input.zones.filter(({ fromZ, toZ }) => Number.isFinite(fromZ) && Number.isFinite(toZ));
  const marks = marksOf(input);
  const range = rangeOf(input, samples, zones);
  const ticks = depthTicks(range, system);
  const left = 12 + Math.max(...ticks.map(({ label }) => textWidth(label)), 32);
  const right = left + PLOT;
  const edge = right + STRIP + 2;
  const x = across(left);
  const y = (z: number): number => TOP + (END - TOP) * inside((range.top - z) / (range.top - range.bottom));

  const classes = CLASSES.filter((name) => zones.some((zone) => zone.class === name));
  const parts: string[] = [element("defs", {}, ...classes.map(classPattern))];
  for (const zone of zones) parts.push(band(zone, left, right, y));
  parts.push(grid(ticks, input, left, y));
  for (const mark of marks) {
    const look = mark.heavy ? { "stroke-width": 1.6 } : { "stroke-dasharray": "2 3" };
    parts.push(element("line", { x1: left, x2: edge, y1: y(mark.z), y2: y(mark.z), stroke: GREY, ...look }));
  }
  for (const [id, of, look] of [
    ["area-curve", (s: EngagementSample) => s.area, SOLID],
    ["rim-curve", (s: EngagementSample) => s.rim, DASHED],
  ] as const) {
    const points = drawnPoints(samples, of, x, y);
    if (points.length > 1) parts.push(path(points, { id, ...look }));
    else for (const point of points) parts.push(single(id, point));
  }
  parts.push(legend((left + right) / 2, 12, [AREA_KEY, RIM_KEY]));
  const labels = labelled(marks, zones, y);
  for (const label of labels) parts.push(label.draw(edge));
  if (classes.length > 0) parts.push(legendOfClasses(classes, (left + right) / 2, HEIGHT - 7));
  return {
    name: "curve",
    width: Math.max(WIDTH, ...labels.map(({ content }) => edge + LEAD + textWidth(content) + 4)),
    height: HEIGHT,
    title: `Engagement over depth along ${input.axis.toUpperCase()}`,
    desc: described(input, samples, zones),
    parts,
  };
}

/** One look makes no curve: a dot for the area, a square for the rim. */
function single(id: "area-curve" | "rim-curve", [x, y]: Place): string {
  return id === "area-curve"
    ? element("circle", { id, cx: x, cy: y, r: 4, fill: METAL })
    : element("rect", { id, x: x - 3, y: y - 3, width: 6, height: 6, fill: "none", stroke: RIM, "stroke-width": 1.8 });
}

/** Where the two curves are one, the dashed and thinner one lies on the other, and both are seen. */
const SOLID = { fill: "none", stroke: METAL, "stroke-width": 3, "stroke-linejoin": "round" };
const DASHED = { ...SOLID, stroke: RIM, "stroke-width": 1.8, "stroke-dasharray": "6 4" };
const inside = (share: number): number => Math.min(1, Math.max(0, share));
/** Nothing and the whole stand off the frame, so that a curve along them is seen. */
const across =
  (left: number) =>
  (share: number): number =>
    left + INSET + (PLOT - 2 * INSET) * inside(share);

const lineKey = (name: string, look: typeof SOLID): Key => ({
  name,
  sample: (x, y) => element("line", { x1: x, x2: x + 20, y1: y + 5, y2: y + 5, ...look }),
});
const AREA_KEY = lineKey("area", SOLID);
const RIM_KEY = lineKey("rim", DASHED);

function rangeOf(
  input: EngagementCurveInput,
  samples: readonly EngagementSample[],
  zones: readonly EngagementZone[],
): DepthRange {
  return depthRange([
    input.startZ,
    input.cutZ ?? input.endZ,
    input.firstContactZ,
    input.fullZ,
    input.worstZ,
    ...samples.map(({ z }) => z),
    ...zones.flatMap(({ fromZ, toZ }) => [fromZ, toZ]),
  ]);
}

/** In the program's unit; heights stay in mm for drawing. */
function depthTicks({ top, bottom }: DepthRange, system: UnitSystem): Tick[] {
  const factor = numberIn(1, "length", system);
  return ticksWithin(bottom * factor, top * factor, 7).map(({ value, label }) => ({ value: value / factor, label }));
}

function grid(
  ticks: readonly Tick[],
  { axis, system }: EngagementCurveInput,
  left: number,
  y: (z: number) => number,
): string {
  const right = left + PLOT;
  const faint = { stroke: GREY, "stroke-opacity": 0.3 };
  const out: string[] = [];
  for (const share of [0, 0.25, 0.5, 0.75, 1]) {
    const x = across(left)(share);
    out.push(element("line", { x1: x, x2: x, y1: TOP, y2: END, ...faint }));
    if (share !== 0.25 && share !== 0.75) out.push(text(x, END + 14, `${share * 100}`, { "text-anchor": "middle" }));
  }
  for (const { value, label } of ticks) {
    out.push(element("line", { x1: left - 4, x2: right, y1: y(value), y2: y(value), ...faint }));
    out.push(text(left - 7, y(value) + 4, label, { "text-anchor": "end" }));
  }
  out.push(
    element("rect", { x: left, y: TOP, width: PLOT, height: END - TOP, fill: "none", stroke: GREY }),
    text(left - 7, TOP - 8, `${axis.toUpperCase()} ${unitIn("length", system)}`, { "text-anchor": "end" }),
    text((left + right) / 2, END + 28, "% in metal", { "text-anchor": "middle" }),
  );
  return out.join("");
}

/** A tint across the plot, and beside it the hatching that tells the class without colour. */
function band(zone: EngagementZone, left: number, right: number, y: (z: number) => number): string {
  const from = Math.min(y(zone.fromZ), y(zone.toZ));
  const height = Math.max(2, Math.abs(y(zone.fromZ) - y(zone.toZ)));
  const top = Math.min(from, END - height);
  const stroke = classStroke(zone.class);
  const strip = { x: right + 2, y: top, width: STRIP, height };
  return (
    element("rect", { x: left, y: top, width: right - left, height, fill: stroke, "fill-opacity": 0.13 }) +
    element("rect", { ...strip, fill: `url(#${classHatch(zone.class)})`, stroke, class: "zone" })
  );
}

/** Centred on `middle` as far as it has room on the left. */
function legendOfClasses(classes: readonly EngagementClass[], middle: number, y: number): string {
  const keys = classes.map((name): Key => {
    const fill = { width: 20, height: 10, fill: `url(#${classHatch(name)})`, stroke: classStroke(name) };
    return { name, sample: (left, top) => element("rect", { x: left, y: top, ...fill }) };
  });
  const width = keys.reduce((sum, key) => sum + 37 + textWidth(key.name), -12);
  return legend(Math.max(middle, 8 + width / 2), y, keys);
}

interface Mark {
  readonly z: number;
  readonly content: string;
  readonly heavy: boolean;
}

/** Marks that a person would read as one height are one. */
function marksOf(input: EngagementCurveInput): Mark[] {
  const named: readonly (readonly [string, number | null])[] = [
    ["first contact", input.firstContactZ],
    ["full engagement", input.fullZ],
    ["worst", input.worstZ],
    ["end", input.cutZ === undefined ? input.endZ : null],
  ];
  const byHeight = new Map<string, { z: number; names: string[] }>();
  for (const [name, z] of named) {
    if (z === null || !Number.isFinite(z)) continue;
    const height = sayHeight(z, input.system);
    const at = byHeight.get(height);
    if (at === undefined) byHeight.set(height, { z, names: [name] });
    else at.names.push(name);
  }
  const marks = [...byHeight].map(([height, { z, names }]) => ({
    z,
    content: `${names.join(", ")} ${height}`,
    heavy: names.includes("worst"),
  }));
  if (input.cutZ !== undefined)
    marks.push({ z: input.cutZ, content: `whole to the end ${sayHeight(input.endZ, input.system)}`, heavy: false });
  return marks;
}

interface Label {
  readonly content: string;
  draw(edge: number): string;
}

/** Marks first, then the hardest zones as far as there is room; the legend names every class anyway. */
function labelled(marks: readonly Mark[], zones: readonly EngagementZone[], y: (z: number) => number): Label[] {
  const room = Math.floor((END - TOP) / LINE);
  const hardest = [...zones]
    .sort((a, b) => CLASSES.indexOf(b.class) - CLASSES.indexOf(a.class))
    .slice(0, Math.max(0, room - marks.length));
  const wished = [
    ...marks.map(({ z, content, heavy }) => ({ at: y(z), content, heavy, stroke: GREY })),
    ...hardest.map((zone) => ({
      at: y((zone.fromZ + zone.toZ) / 2),
      content: zone.class,
      heavy: false,
      stroke: classStroke(zone.class),
    })),
  ].sort((a, b) => a.at - b.at);
  const heights = spread(
    wished.map(({ at }) => at),
    LINE,
    TOP + 2,
    END + 2,
  );
  return wished.map(({ at, content, heavy, stroke }, i) => ({
    content,
    draw: (edge) => {
      const to = heights[i] as number;
      const lead: Place[] = [
        [edge, at],
        [edge + 4, at],
        [edge + LEAD - 6, to],
        [edge + LEAD - 3, to],
      ];
      return path(lead, { stroke }) + text(edge + LEAD, to + 4, content, heavy ? { "font-weight": "bold" } : {});
    },
  }));
}

/** Per row of pixels the first, least, largest and last point: more could not be seen. */
function drawnPoints(
  samples: readonly EngagementSample[],
  of: (sample: EngagementSample) => number,
  x: (share: number) => number,
  y: (z: number) => number,
): Place[] {
  const out: Place[] = [];
  let row: Place[] = [];
  const close = (): void => {
    const least = row.reduce((a, b, i) => (b[0] < (row[a] as Place)[0] ? i : a), 0);
    const most = row.reduce((a, b, i) => (b[0] > (row[a] as Place)[0] ? i : a), 0);
    const kept = new Set([0, Math.min(least, most), Math.max(least, most), row.length - 1]);
    for (const i of kept) if (row[i] !== undefined) out.push(row[i]);
    row = [];
  };
  for (const sample of samples) {
    const share = of(sample);
    if (!Number.isFinite(share)) continue;
    const point: Place = [x(share), y(sample.z)];
    const first = row[0];
    if (first !== undefined && Math.round(first[1]) !== Math.round(point[1])) close();
    row.push(point);
  }
  close();
  return out;
}

function described(
  input: EngagementCurveInput,
  samples: readonly EngagementSample[],
  zones: readonly EngagementZone[],
): string {
  const { system, axis } = input;
  const height = (z: number): string => `${axis.toUpperCase()} ${sayHeight(z, system)}`;
  const out = marksOf(input).map(({ content }) => `${content}.`);
  const { worstZ } = input;
  const near = worstZ === null ? undefined : nearest(samples, worstZ);
  if (near !== undefined) {
    const side = Number.isFinite(near.side) ? `, normalised side force ${near.side.toFixed(2)}` : "";
    out.push(`At the worst: area ${sayShare(near.area)}, rim ${sayShare(near.rim)} in metal${side}.`);
  }
  for (const zone of zones.slice(0, TOLD)) {
    out.push(`Interrupted, ${zone.class}, from ${height(zone.fromZ)} to ${height(zone.toZ)}.`);
  }
  if (zones.length > TOLD) out.push(`${zones.length - TOLD} more zones below.`);
  if (zones.length === 0) out.push("Nowhere interrupted.");
  return out.join(" ");
}

function nearest(samples: readonly EngagementSample[], z: number): EngagementSample | undefined {
  let best: EngagementSample | undefined;
  for (const sample of samples) {
    if (best === undefined || Math.abs(sample.z - z) < Math.abs(best.z - z)) best = sample;
  }
  return best;
}
