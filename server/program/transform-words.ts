/** What the axis words of a block mean while a code of transform.ts is in force. */
import { AXIS_NAMES, type Run } from "./run.ts";
import { at, PLANES, type Polar, readingOf, startPolar, type Transform, type Triple, turn } from "./transform.ts";
import { axisDoubt, UNSURE, unsure } from "./unsure.ts";
import { X } from "./words.ts";

/** The program number of an axis where the tool stands; NaN where it is not known or in doubt. */
export function reading(run: Run, axis: number): number {
  const { transform, doubt, written } = run.places;
  if ((doubt & (1 << axis)) !== 0) return Number.NaN;
  const q = readingOf(transform, run.pos, axis);
  return Number.isNaN(q) && written !== null ? at(written, axis) : q;
}

const KIND = { omitted: 0, absolute: 1, increment: 2 } as const;
const kinds = new Uint8Array(3);
const numbers = new Float64Array(3);

/**
 * End position of the axis words in `mask`, into `out`, where a code of this file is in force. Takes over what the block
 * makes of the state: the polar numbers, and axes that are in doubt no more.
 */
export function reach(run: Run, mask: number, out: Float64Array): void {
  const { polar } = run.places;
  if (polar !== null && mask !== 0 && unsure(run.row, UNSURE.plane)) {
    // Nobody knows which two words are radius and angle.
    out.fill(Number.NaN);
    run.why.fill(run.row.unsureWhy);
    run.places.written = null;
    return;
  }
  const [u, v] = PLANES[run.row.plane];
  const around = polar !== null && (mask & ((1 << (X + u)) | (1 << (X + v)))) !== 0;
  // The second word of the plane is an angle then, no length.
  const why = axisDoubt(run.row);
  takeNumbers(run, around ? mask & ~(1 << (X + v)) : mask, run.row.distance === 91, why !== "");
  if (around) polarNumbers(run, mask, polar);
  finish(run, out);
}

/** The position that absolute numbers mean, whatever the distance mode and polar numbers. As `reach` otherwise. */
export function absolute(run: Run, mask: number, out: Float64Array): void {
  takeNumbers(run, mask, false);
  finish(run, out);
}

function takeNumbers(run: Run, mask: number, increment: boolean, doubtful = false): void {
  for (let axis = 0; axis < 3; axis++) {
    const given = (mask & (1 << (X + axis))) !== 0;
    kinds[axis] = given ? (increment ? KIND.increment : KIND.absolute) : KIND.omitted;
    numbers[axis] = given ? (doubtful ? Number.NaN : run.length(X + axis)) : 0;
  }
}

function finish(run: Run, out: Float64Array): void {
  const { places, pos } = run;
  const now: [number, number, number] = [reading(run, 0), reading(run, 1), reading(run, 2)];
  const { transform } = places;
  for (let i = 0; i < 3; i++) {
    const moves = any(transform, i, KIND.absolute) || any(transform, i, KIND.increment);
    if (!moves) out[i] = at(pos, i);
    else {
      out[i] = across(run, transform, i, now);
      if (Number.isNaN(at(out, i))) explain(run, i, now);
    }
  }
  for (let axis = 0; axis < 3; axis++) {
    if (kinds[axis] === KIND.absolute) now[axis] = at(numbers, axis);
    else if (kinds[axis] === KIND.increment) now[axis] = (now[axis] ?? Number.NaN) + at(numbers, axis);
  }
  for (let axis = 0; axis < 3; axis++)
    if (kinds[axis] === KIND.absolute || (kinds[axis] === KIND.increment && at(numbers, axis) !== 0))
      places.doubt &= ~(0b1001 << axis);
  places.written = transform === null ? null : now;
}

/** Whether an axis moves as another does. Axes that are turned go together, be it by a quarter. */
function together(transform: Transform | null, i: number, j: number): boolean {
  if (i === j) return true;
  const rotation = transform?.rotation ?? null;
  if (rotation === null) return false;
  const [, , along] = PLANES[rotation.plane];
  return rotation.inSpace || (i !== along && j !== along);
}

function any(transform: Transform | null, i: number, kind: number): boolean {
  for (let j = 0; j < 3; j++) if (kinds[j] === kind && together(transform, i, j)) return true;
  return false;
}

/** Position of one axis: only what its number depends on needs to be known. */
function across(run: Run, transform: Transform | null, i: number, now: Triple): number {
  const absolute = any(transform, i, KIND.absolute);
  let p = absolute ? (transform === null ? 0 : at(transform.t, i)) : at(run.pos, i);
  for (let j = 0; j < 3; j++) {
    const c = coefficient(transform, i, j);
    if (c === 0) continue;
    if (absolute) p += c * ((kinds[j] === KIND.absolute ? 0 : at(now, j)) + at(numbers, j));
    else if (kinds[j] === KIND.increment) p += stepInDoubt(run, j) ? Number.NaN : c * at(numbers, j);
  }
  return p;
}

/** Whether an increment may begin elsewhere. None at all begins nowhere: `G91 G28 X0` goes straight home. */
const stepInDoubt = (run: Run, axis: number): boolean =>
  (run.places.doubt & (0b1000 << axis)) !== 0 && at(numbers, axis) !== 0;

const coefficient = (transform: Transform | null, i: number, j: number): number =>
  transform === null ? (i === j ? 1 : 0) : at(transform.m, 3 * i + j);

/** Says why an axis is unknown after the block. */
function explain(run: Run, axis: number, now: Triple): void {
  const { transform, doubt, polar } = run.places;
  const mine = axis as 0 | 1 | 2;
  if (axisDoubt(run.row) !== "") {
    run.why[mine] = axisDoubt(run.row);
    return;
  }
  for (let j = 0; j < 3; j++) {
    if (kinds[j] === KIND.omitted || coefficient(transform, axis, j) === 0) continue;
    if (!run.words.has(X + j) || (run.words.unknown & (1 << (X + j))) === 0) continue;
    run.why[mine] = `${AXIS_NAMES[j]} has a value that cannot be known`;
    return;
  }
  if (transform !== null && transform.why !== "") {
    run.why[mine] = transform.why;
    return;
  }
  for (let j = 0; j < 3; j++) {
    if (coefficient(transform, axis, j) === 0) continue;
    const omitted = kinds[j] === KIND.omitted && (doubt & (1 << j)) !== 0;
    if (omitted || (kinds[j] === KIND.increment && stepInDoubt(run, j))) {
      inDoubt(run, mine, AXIS_NAMES[j] ?? "X", omitted, transform?.codes ?? "");
      return;
    }
  }
  if (polar !== null && run.why[mine].startsWith("G16")) return;
  for (let j = 0; j < 3; j++) {
    if (kinds[j] === KIND.absolute || coefficient(transform, axis, j) === 0 || !Number.isNaN(at(now, j))) continue;
    const name = AXIS_NAMES[j] ?? "X";
    const why = run.why[j as 0 | 1 | 2];
    if (j === axis && kinds[j] === KIND.increment) run.why[mine] = `incremental from an unknown ${name}: ${why}`;
    else if (j !== axis) run.why[mine] = `${AXIS_NAMES[mine]} depends on ${name} in ${transform?.codes ?? ""}: ${why}`;
    return;
  }
}

function inDoubt(run: Run, mine: 0 | 1 | 2, name: string, omitted: boolean, codes: string): void {
  run.why[mine] = omitted
    ? `${name} has not been written since ${codes}, and controls differ in what it then is`
    : `an increment right after a cancelled rotation, scaling or mirror image counts from different places on different controls`;
  const way = omitted
    ? `Way out: write both axes in the first block after ${codes}`
    : "Way out: write an absolute position in G90 first";
  const what = omitted
    ? `${name} is not in the first block after ${codes}: controls differ in the value it then has, so the position is unknown`
    : `${name} moves by an increment right after a cancel: controls count it from the place as programmed or as it was reached, so the position is unknown`;
  run.remark("transform-first-move", "warning", run.words.first, `${what}. ${way}`, 3);
}

/** Degrees of a word; thousandths where the dialect counts a word without a point so. */
export function degrees(run: Run, letter: number): number {
  const { words, dialect } = run;
  const value = words.get(letter);
  const pointless = (words.pointless & (1 << letter)) !== 0 && dialect.decimalMode === "least-increment";
  if (!pointless || value === 0 || Number.isNaN(value)) return value;
  const read = value / 1000;
  const name = String.fromCharCode(65 + letter);
  run.remark(
    `point-angle-${name}`,
    "warning",
    words.itemOf(letter),
    `${name}${value} has no decimal point: this dialect reads it as ${read} degrees. Way out: ${name}${value}. if ${value} degrees are meant`,
    1,
  );
  return read;
}

/** Puts the place that radius and angle mean in place of the two words. */
function polarNumbers(run: Run, mask: number, old: Polar): void {
  const { row, places } = run;
  const [u, v] = PLANES[row.plane];
  const hasU = (mask & (1 << (X + u))) !== 0;
  const hasV = (mask & (1 << (X + v))) !== 0;
  const polar = old.plane === row.plane ? old : { ...startPolar(row.plane), unsure: old.unsure };
  const increment = row.distance === 91;
  let { radius, angle, pole } = polar;
  let why = "";
  if (hasU) {
    radius = at(numbers, u);
    pole = increment ? [reading(run, u), reading(run, v)] : [0, 0];
  } else if (Number.isNaN(radius)) why = "G16 needs a radius first";
  if (hasV) {
    const value = degrees(run, X + v);
    const before = Number.isNaN(angle) && hasU ? 0 : angle;
    if (!increment) angle = value;
    else if (!hasU || before === 0) angle = before + value;
    else {
      // Counted on from the angle before, or from the first axis: both are met.
      angle = Number.NaN;
      why = "G16 in G91: controls differ in whether the angle counts from the one before";
    }
  } else if (Number.isNaN(angle)) why = why === "" ? "G16 needs an angle first" : why;
  if (axisDoubt(row) !== "") why = row.unsureWhy;
  if (polar.unsure) why = "what G16 counts from differs by the way taken";
  const [cos, sin] = why === "" ? turn(angle) : [Number.NaN, Number.NaN];
  numbers[u] = pole[0] + radius * cos;
  numbers[v] = pole[1] + radius * sin;
  kinds[u] = KIND.absolute;
  kinds[v] = KIND.absolute;
  if (why !== "") {
    run.why[u] = why;
    run.why[v] = why;
  }
  places.polar = { ...polar, radius, angle, pole };
}

/** Puts another transform in force. The tool stays where it is; axes that read otherwise now are in doubt. */
export function change(run: Run, next: Transform | null, cancels: boolean): void {
  const { places, pos } = run;
  run.record?.longHand.commit(run);
  const before = places.transform;
  if (before?.key === next?.key) return;
  for (let axis = 0; axis < 3; axis++) {
    const was = readingOf(before, pos, axis);
    const is = readingOf(next, pos, axis);
    if (Math.abs(was - is) < 1e-9) continue;
    if (Number.isNaN(was) && Number.isNaN(is) && Number.isNaN(at(pos, axis))) continue;
    places.doubt |= (cancels ? 0b1001 : 0b0001) << axis;
  }
  places.transform = next;
  places.written = null;
  places.version++;
}
