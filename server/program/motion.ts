/** Straight and circular moves: where they end, how long they take, and who is told. */
import { AXIS_NAMES, type Run } from "./run.ts";
import { areaFactor, directed, intervenes, PLANES } from "./transform.ts";
import { reach } from "./transform-words.ts";
import { axisDoubt, UNSURE, unsure } from "./unsure.ts";
import { bit, I, IJK, J, K, R, X, XYZ, Y, Z } from "./words.ts";

const AXIS_LETTERS = [X, Y, Z] as const;

/** 1/min in force; NaN unknown, 0 stopped. */
export function turnsPerMinute(run: Run): number {
  const { row } = run;
  if (unsure(row, UNSURE.spindle | UNSURE.speedMode)) return Number.NaN;
  if (row.spindle === 0) return 0;
  return row.speedMode === 97 ? row.s : Number.NaN;
}

/** Path feed in mm/min; NaN unknown (or in G93, where it depends on the move). */
export function feedRate(run: Run): number {
  const { row } = run;
  if (row.feedMode === 93 || unsure(row, UNSURE.feedMode | UNSURE.units)) return Number.NaN;
  const feed = row.f * run.factor();
  const rate = row.feedMode === 95 ? feed * turnsPerMinute(run) : feed;
  const limit = run.machine?.axis.maxFeed ?? null;
  return limit !== null && row.units !== 0 ? Math.min(rate, limit) : rate;
}

export function feedSeconds(run: Run, length: number): number {
  if (run.row.feedMode === 93 && !unsure(run.row, UNSURE.feedMode))
    return run.dialect.g93 === "seconds" ? run.row.f : 60 / run.row.f;
  const rate = feedRate(run);
  return rate > 0 ? (60 * length) / rate : Number.NaN;
}

export function rapidSeconds(run: Run, longest: number): number {
  const rapid = run.machine?.axis.rapid ?? null;
  if (longest === 0) return 0;
  return rapid !== null && rapid > 0 && run.row.units !== 0 ? (60 * longest) / rapid : Number.NaN;
}

const number = (value: number | undefined): number => value ?? Number.NaN;

/**
 * A straight move at rapid (or, for G53 with G1, at feed) that is not told to the hole builder as a stroke of its own
 * kind when it is a home or machine move.
 */
export function moveRapid(
  run: Run,
  x: number | undefined,
  y: number | undefined,
  z: number | undefined,
  reference = false,
  kind: "rapid" | "feed" = "rapid",
): void {
  straight(run, kind, number(x), number(y), number(z), reference);
}

export function straight(run: Run, kind: "rapid" | "feed", x: number, y: number, z: number, reference = false): void {
  const { pos } = run;
  const x0 = number(pos[0]);
  const y0 = number(pos[1]);
  const z0 = number(pos[2]);
  if (x === x0 && y === y0 && z === z0) return;
  // An axis that was and stays unknown did not move unless the move goes to a place that is itself unknown.
  const dx = Number.isNaN(x) && Number.isNaN(x0) && !reference ? 0 : Math.abs(x - x0);
  const dy = Number.isNaN(y) && Number.isNaN(y0) && !reference ? 0 : Math.abs(y - y0);
  const dz = Number.isNaN(z) && Number.isNaN(z0) && !reference ? 0 : Math.abs(z - z0);
  if (dx === 0 && dy === 0 && dz === 0) return;
  const seconds = kind === "rapid" ? rapidSeconds(run, Math.max(dx, dy, dz)) : feedSeconds(run, Math.hypot(dx, dy, dz));
  pos[0] = x;
  pos[1] = y;
  pos[2] = z;
  const { record } = run;
  if (record !== null) {
    // A move from a place that only the machine knows (tool change, home) has no length here.
    if (reference) record.longHand.commit(run);
    else if (kind === "rapid") record.longHand.rapid(run, x0, y0, z0);
    else record.longHand.feed(run, x0, y0, z0);
    if (Number.isNaN(dx + dy + dz)) record.operations.addUnknown();
    else record.operations.addSeconds(seconds);
  }
  if (run.sink !== null) run.emit(kind, seconds);
}

/** End position of the block's axis words by the distance mode, into `out`. */
export function target(run: Run, out: Float64Array): void {
  const { words, row, pos } = run;
  if (intervenes(run.places)) {
    reach(run, words.mask & XYZ, out);
    return;
  }
  const why = axisDoubt(row);
  for (let axis = 0; axis < 3; axis++) {
    const letter = AXIS_LETTERS[axis] ?? X;
    const now = number(pos[axis]);
    if ((words.mask & (1 << letter)) === 0) {
      out[axis] = now;
      continue;
    }
    if (why !== "") {
      out[axis] = Number.NaN;
      run.why[axis as 0 | 1 | 2] = why;
      continue;
    }
    let value = run.length(letter);
    if (row.distance === 91) value += now;
    if (Number.isNaN(value)) {
      run.why[axis as 0 | 1 | 2] =
        (words.unknown & (1 << letter)) !== 0
          ? `${AXIS_NAMES[axis]} has a value that cannot be known`
          : `incremental from an unknown ${AXIS_NAMES[axis]}: ${run.why[axis]}`;
    }
    out[axis] = value;
  }
}

const scratch = new Float64Array(3);

/** G0 to G3 by the modal motion in force, with the block's axis words. */
export function move(run: Run, item: number): void {
  const { row, words } = run;
  target(run, scratch);
  const x = number(scratch[0]);
  const y = number(scratch[1]);
  const z = number(scratch[2]);
  if (run.lengthOwed && words.has(Z)) lengthCheck(run, z, words.itemOf(Z));
  if (row.motion === 0) {
    straight(run, "rapid", x, y, z);
    return;
  }
  if (row.feedMode === 93 && !words.has(5) && !unsure(row, UNSURE.feedMode)) {
    run.remark("g93-feed", "error", item, "G93 needs an F word in every block that cuts. Way out: F here, or G94");
    return;
  }
  if (row.motion === 1) {
    if (!(row.f > 0)) zeroFeed(run, item);
    straight(run, "feed", x, y, z);
    return;
  }
  if (!(row.f > 0)) zeroFeed(run, item);
  arc(run, x, y, z, item);
}

function zeroFeed(run: Run, item: number): void {
  if (run.dialect.unusedWords === "error" && ((Number.isNaN(run.row.f) && run.row.fWhy === "") || run.row.f === 0))
    run.remark(
      "zero-feed",
      "error",
      item,
      "a cutting move with no F in force cannot run. Way out: F in this block or before it",
      3,
    );
}

/** The first move down after a tool change needs the tool's length in force. */
export function lengthCheck(run: Run, z: number, item: number): void {
  const z0 = number(run.pos[2]);
  if (z >= z0) return;
  run.lengthOwed = false;
  if (run.dialect.tloWord === "auto") return;
  const tool = run.row.tool;
  run.say("length-offset-missing", "", item, { tool: tool < 0 ? null : tool });
}

/** Offsets I, J, K belong to X, Y, Z. */
function arc(run: Run, x: number, y: number, z: number, item: number): void {
  const { row, words, pos } = run;
  const { transform } = run.places;
  const [u, v, w] = PLANES[row.plane];
  // Mirrored in one axis a circle runs the other way round.
  const area = areaFactor(transform, u, v);
  const clockwise = (row.motion === 2) !== area < 0;
  const from = [number(pos[0]), number(pos[1]), number(pos[2])];
  const to = [x, y, z];
  const u0 = number(from[u]);
  const v0 = number(from[v]);
  const u1 = number(to[u]);
  const v1 = number(to[v]);
  let cu = Number.NaN;
  let cv = Number.NaN;
  if ((words.mask & IJK) !== 0) {
    const offset = [
      words.has(I) ? run.length(I) : 0,
      words.has(J) ? run.length(J) : 0,
      words.has(K) ? run.length(K) : 0,
    ];
    const towards = directed(transform, number(offset[0]), number(offset[1]), number(offset[2]));
    cu = u0 + towards[u];
    cv = v0 + towards[v];
    const r0 = Math.hypot(u0 - cu, v0 - cv);
    const r1 = Math.hypot(u1 - cu, v1 - cv);
    // NISTIR 6556 3.5.3.2: the radii may differ by 0.0002 inch or 0.002 mm.
    const tolerance = row.units === 2 ? 0.0002 * 25.4 : 0.002;
    if (Math.abs(r0 - r1) > Math.max(tolerance, 1e-3 * r0) && !unsure(row, UNSURE.plane)) {
      const radii = `${(r0 / run.factor()).toFixed(4)} at its start and ${(r1 / run.factor()).toFixed(4)} at its end`;
      run.remark(
        "arc-radius",
        run.dialect.unusedWords === "error" ? "error" : "warning",
        item,
        `the arc has the radius ${radii}. Way out: check its end, I, J and K`,
      );
    }
  } else if (words.has(R)) {
    const r = run.length(R) * Math.sqrt(Math.abs(area));
    const half = Math.hypot(u1 - u0, v1 - v0) / 2;
    const rise = r * r - half * half;
    if (half === 0 || rise < -1e-6) {
      if (!unsure(row, UNSURE.plane))
        run.remark(
          "arc-radius",
          "error",
          item,
          "no arc of this radius goes through both ends. Way out: check its end and R, or give I and J",
        );
    } else {
      // Minor arc for a positive radius; the side follows from the direction.
      const side = (clockwise ? -1 : 1) * Math.sign(r || 1);
      const h = Math.sqrt(Math.max(0, rise)) / (2 * half);
      cu = (u0 + u1) / 2 - side * h * (v1 - v0);
      cv = (v0 + v1) / 2 + side * h * (u1 - u0);
    }
  } else if ((words.mask & XYZ) !== 0) {
    run.remark("arc-centre", "error", item, "an arc needs its centre or its radius. Way out: I, J and K, or R");
  }
  const radius = Math.hypot(u0 - cu, v0 - cv);
  const start = Math.atan2(v0 - cv, u0 - cu);
  const end = Math.atan2(v1 - cv, u1 - cu);
  let turn = clockwise ? start - end : end - start;
  if (turn <= 1e-9) turn += 2 * Math.PI;
  const along = number(to[w]) - number(from[w]);
  const seconds = feedSeconds(run, Math.hypot(radius * turn, Number.isNaN(along) ? 0 : along));
  const { record } = run;
  if (record !== null) {
    record.operations.addSeconds(seconds);
  }
  pos[0] = x;
  pos[1] = y;
  pos[2] = z;
  if (record !== null) record.longHand.lateral(run, number(from[0]), number(from[1]), number(from[2]));
  if (run.sink !== null) run.emit("arc", seconds);
}

export const ANY_AXIS = XYZ | bit(0) | bit(1) | bit(2);
