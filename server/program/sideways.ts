/** A drill that moves across its axis while it stands in metal. */
import { turns } from "../setup/dialect.ts";
import type { MilledRegions } from "./milled.ts";
import type { Run } from "./run.ts";
import { X } from "./words.ts";

const SAMPLES = 16;
/** Less than this across is no move across, mm. */
const LEAST = 0.05;
const DEEP = 0.01;

const number = (value: number | undefined): number => value ?? Number.NaN;

/** Tells of a move that ended at the run's position and came from `before`, where a drill was dragged through metal. */
export function sideways(
  run: Run,
  w: number,
  u: number,
  v: number,
  before: readonly number[],
  by: "rapid" | "feed",
  milled: MilledRegions,
): void {
  const { record, row, pos, cycle } = run;
  if (record === null || row.units === 0 || turns(run.dialect)) return;
  const drill = record.operations.drillOf(row.tool);
  if (drill === null) return;
  const [u0, v0, z0] = [number(before[u]), number(before[v]), number(before[w])];
  const [u1, v1, z1] = [number(pos[u]), number(pos[v]), number(pos[w])];
  const across = Math.hypot(u1 - u0, v1 - v0);
  if (!(across > LEAST) || Number.isNaN(z0 + z1)) return;
  // The level that a cycle returns to: where it lies below the surface, that is the cycle's own finding.
  if (by === "rapid" && z1 >= z0 && (near(z0, cycle.r) || near(z0, cycle.initial))) return;
  if (record.holes.surface.constant && Math.min(z0, z1) >= record.holes.surfaceAt(run, w, u0, v0).z - DEEP) return;
  const frame = record.holes.places.frameOf(run, w);
  let cut = 0;
  let deepest = Number.POSITIVE_INFINITY;
  let surface = 0;
  let declared = false;
  for (let i = 0; i <= SAMPLES; i++) {
    // The middles of equal parts, and the end.
    const t = i === SAMPLES ? 1 : (i + 0.5) / SAMPLES;
    const [x, y, z] = [u0 + t * (u1 - u0), v0 + t * (v1 - v0), z0 + t * (z1 - z0)];
    const hit = record.holes.surfaceAt(run, w, x, y);
    if (hit.beside === true || z >= hit.z - DEEP || milled.covers(frame, x, y, z)) continue;
    cut += across / SAMPLES;
    if (z >= deepest) continue;
    deepest = z;
    surface = hit.z;
    declared = hit.declared;
  }
  if (!(cut > LEAST)) return;
  // A bore wide enough for the whole move, around either end.
  const wide = record.toolDiameter(row.tool) + 2 * across;
  const low = Math.min(z0, z1);
  if (record.holes.freeTo(run, w, u0, v0, wide) <= low + DEEP) return;
  if (record.holes.freeTo(run, w, u1, v1, wide) <= low + DEEP) return;
  const letter = run.words.has(X + u) ? X + u : X + v;
  const item = run.words.has(letter) ? run.words.itemOf(letter) : run.words.first;
  const level = declared && !drill.assumed ? "error" : "warning";
  run.say("sideways-in-metal", by, item, { z: deepest, surface, by, tool: row.tool, level });
}

const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;
