/** G51, G68, G51.1, G16 and the codes that cancel them. Their axis words are used up: the block moves nothing. */
import { AXIS_NAMES, type Run } from "./run.ts";
import {
  at,
  heightKept,
  type Mirror,
  makeTransform,
  NO_MIRROR,
  PLANES,
  type Rotation,
  readingOf,
  type Scaling,
  startPolar,
  type Triple,
} from "./transform.ts";
import { change, degrees } from "./transform-words.ts";
import { UNSURE, unsure } from "./unsure.ts";
import { IJK, letterName, P, R, X, XYZ } from "./words.ts";

const AXES = [0, 1, 2] as const;
/** A factor this large without a point is thousandths that lost their meaning, not a factor. */
const ABSURD_FACTOR = 100;

/** A length word as a place; not known while the units are not, unless it is zero. */
function place(run: Run, letter: number): number {
  const value = run.length(letter);
  return run.row.units === 0 && value !== 0 ? Number.NaN : value;
}

/** Where the tool stands before mirroring, and before rotation too. */
function standing(run: Run): Triple {
  const { transform } = run.places;
  const { pos, row } = run;
  const tool: [number, number, number] = [at(pos, 0), at(pos, 1), at(pos, 2)];
  if (row.units === 0) tool.fill(Number.NaN);
  return AXES.map((axis) => {
    const line = transform?.mirror[axis] ?? null;
    return line === null ? tool[axis] : 2 * line - (tool[axis] ?? Number.NaN);
  }) as unknown as Triple;
}

function unknown(run: Run, item: number, what: string, why: string): void {
  run.say("unknown-value", `${what} ${why}`, item, { what, why }, undefined, 1);
}

function drop(run: Run, mask: number): void {
  run.words.mask &= ~mask;
}

/** G68 turns the plane about a centre by R degrees; G91 adds to the angle in force (common practice). G69 ends it. */
export function rotationCode(run: Run, code: number, item: number): void {
  const { words, row, places } = run;
  const now = places.transform;
  const scaling = now?.scaling ?? null;
  const mirror = now?.mirror ?? NO_MIRROR;
  if (code !== 680) {
    change(run, makeTransform(scaling, null, mirror), true);
    return;
  }
  const [u, v] = PLANES[row.plane];
  const stand = standing(run);
  const centre = (axis: 0 | 1 | 2): number => {
    if (!words.has(X + axis)) return stand[axis];
    const value = place(run, X + axis);
    const factor = scaling?.factor[axis] ?? 1;
    return factor === 1 ? value : (scaling?.centre[axis] ?? 0) * (1 - factor) + factor * value;
  };
  const before = now?.rotation ?? null;
  let angle = words.has(R) ? degrees(run, R) : Number.NaN;
  if (!words.has(R)) unknown(run, item, "the angle of G68", "it has no R, and the machine's parameter is not known");
  if (row.distance === 91 && before !== null && before.plane === row.plane) angle += before.angle;
  if (unsure(row, UNSURE.distance | UNSURE.plane)) angle = Number.NaN;
  const byWords = (words.mask & IJK) !== 0;
  const inSpace = byWords || unsure(row, UNSURE.plane);
  const rotation: Rotation = { plane: row.plane, u: centre(u), v: centre(v), angle, inSpace };
  const next = makeTransform(scaling, rotation, mirror);
  if (byWords)
    unknown(run, item, "every position in G68", "I, J or K turns about a line in space, which is not followed");
  else if (next !== null && words.has(R) && Number.isNaN(rotation.u + rotation.v))
    unknown(run, item, "the centre of G68", "it is where the tool stands, which is not known here");
  drop(run, XYZ | IJK | (1 << R));
  change(run, next, false);
}

/** G51 scales about a centre by P, or by I, J and K for each axis. G50 ends it. */
export function scalingCode(run: Run, code: number, item: number): void {
  const { words, places } = run;
  const now = places.transform;
  const rotation = now?.rotation ?? null;
  const mirror = now?.mirror ?? NO_MIRROR;
  if (code !== 510) {
    change(run, makeTransform(null, rotation, mirror), true);
    return;
  }
  // The centre that leaves the tool where it is: before rotation and mirroring.
  const stand = standing(run);
  const turned = makeTransform(null, rotation, NO_MIRROR);
  const free = (axis: 0 | 1 | 2): number => readingOf(turned, stand, axis);
  const each = (words.mask & IJK) !== 0;
  if (!each && !words.has(P))
    unknown(run, item, "the factor of G51", "it has no P, I, J or K, and the machine's parameter is not known");
  const scaling: Scaling = {
    centre: AXES.map((axis) => (words.has(X + axis) ? place(run, X + axis) : free(axis))) as unknown as Triple,
    factor: AXES.map((axis) => factorOf(run, each ? 8 + axis : P, each)) as unknown as Triple,
  };
  const next = makeTransform(scaling, rotation, mirror);
  if (next?.why === "the centre of G51 is not known")
    unknown(run, item, "the centre of G51", "it is where the tool stands, which is not known here");
  drop(run, XYZ | IJK | (1 << P));
  change(run, next, false);
}

function factorOf(run: Run, letter: number, each: boolean): number {
  const { words, dialect } = run;
  // An axis left out among I, J and K keeps its size (common practice).
  if (!words.has(letter)) return each ? 1 : Number.NaN;
  const value = words.get(letter);
  const name = letterName(letter);
  const item = words.itemOf(letter);
  if (value === 0) {
    run.remark(
      "g51-zero",
      "error",
      item,
      `${name}0 scales everything to one point. Way out: a factor other than zero; 1 keeps the size`,
    );
    return Number.NaN;
  }
  if ((words.pointless & (1 << letter)) === 0 || Number.isNaN(value)) return value;
  if (dialect.decimalMode === "least-increment") return value / 1000;
  if (Math.abs(value) < ABSURD_FACTOR) return value;
  run.remark(
    "g51-factor",
    "warning",
    item,
    `${name}${value} has no decimal point: as a factor it makes the part ${value} times as large, in thousandths ${value / 1000} times. Positions in G51 are not known. Way out: ${name}${value / 1000} with a point, or the dialect's \`decimalMode\``,
  );
  return Number.NaN;
}

/** G51.1 mirrors each axis it names about that position; G50.1 ends it for the axes it names, without any for all. */
export function mirrorCode(run: Run, code: number, item: number): void {
  const { words, places } = run;
  const now = places.transform;
  const named = words.mask & XYZ;
  if (code === 511 && named === 0) {
    run.remark(
      "g51.1-axes",
      "error",
      item,
      "G51.1 names no axis, so nothing is mirrored. Way out: the axis and the position of the mirror line, as in X0",
    );
    return;
  }
  const old = now?.mirror ?? NO_MIRROR;
  const mirror = AXES.map((axis) => {
    const has = (named & (1 << (X + axis))) !== 0;
    if (code === 511) return has ? place(run, X + axis) : (old[axis] ?? null);
    return has || named === 0 ? null : (old[axis] ?? null);
  }) as unknown as Mirror;
  drop(run, XYZ);
  change(run, makeTransform(now?.scaling ?? null, now?.rotation ?? null, mirror), code !== 511);
}

/** G16: the first axis of the plane is a radius, the second an angle; G15 ends it. */
export function polarCode(run: Run, code: number): void {
  run.polar = code === 160;
  run.places.polar = run.polar ? startPolar(run.row.plane) : null;
  run.places.version++;
}

/**
 * Whether a cycle reaches the depth it writes. Controls differ in what scaling, mirroring or turning of the drill axis
 * does to R, Z and Q of a cycle, so the levels are not known then.
 */
export function keepsDepth(run: Run, w: number): boolean {
  const { transform } = run.places;
  if (transform === null || heightKept(transform, w)) return true;
  const axis = AXIS_NAMES[w] ?? "Z";
  const why =
    transform.why === ""
      ? `${transform.codes} changes ${axis}, and controls differ in what it does to the levels of a cycle`
      : `${transform.why}, nor what it does to the levels of a cycle`;
  run.why[w as 0 | 1 | 2] = why;
  return false;
}

/** Tells of a code that some controls refuse, or read in their own way, while a transform is in force. */
export function underTransform(run: Run, name: string, item: number): void {
  const { transform } = run.places;
  if (transform === null) return;
  run.remark(
    "in-transform",
    "info",
    item,
    `${name} stands while ${transform.codes} is in force: some controls refuse that; it is read here as a shift that is neither turned nor scaled. Way out: ${cancelling(transform.codes)} before it`,
    1,
  );
}

/** Tells of codes still in force where the next part of the program may not count on them. */
export function leftInForce(run: Run, item: number, where: string): void {
  const { transform, polar } = run.places;
  const codes = [...(transform === null ? [] : [transform.codes]), ...(polar === null ? [] : ["G16"])];
  if (codes.length === 0) return;
  const on = codes.join(" and ");
  run.remark(
    "left-in-force",
    "info",
    item,
    `still in force at ${where}: ${on}. What follows is read in it, unless the control cancels it there. Way out: ${cancelling(on)} before it, where it is not meant for the whole program`,
    1,
  );
}

/** The codes that end those in force. */
function cancelling(codes: string): string {
  return codes
    .replace("G51.1", "G50.1")
    .replace(/G51(?!\.)/, "G50")
    .replace("G68", "G69")
    .replace("G16", "G15");
}
