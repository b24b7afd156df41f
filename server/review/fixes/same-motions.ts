/** Whether two executions move the machine alike, but for slower feeds in the blocks that were meant. */
import type { ModalState, Motion } from "../../program/types.ts";

interface Piece {
  readonly toZ: number;
  readonly f: number | null;
}

/** One motion, or feeds straight down one after the other without anything between them. */
interface Run {
  readonly motion: Motion;
  /** Feeds of a run down, from its top; empty for other motions. */
  readonly pieces: readonly Piece[];
  readonly meant: boolean;
}

/** mm: numbers are written with at most six decimals of an inch. */
const FINE = 1e-4;

const near = (a: number | null, b: number | null): boolean =>
  a === b || (a !== null && b !== null && Math.abs(a - b) < FINE);

/**
 * @param meant blocks of the program before in which the feed may fall
 * @returns what differs; empty: nothing
 */
export function differs(before: readonly Motion[], after: readonly Motion[], meant: ReadonlySet<number>): string {
  const [old, now] = [runsOf(before, meant), runsOf(after, new Set())];
  for (let i = 0; i < Math.max(old.length, now.length); i++) {
    const [a, b] = [old[i], now[i]];
    if (a === undefined || b === undefined) return "it would end elsewhere";
    if (a.motion.kind !== b.motion.kind) return "the motions would not be the same";
    if (!near(a.motion.x, b.motion.x) || !near(a.motion.y, b.motion.y) || !near(a.motion.z, b.motion.z))
      return "the tool would go another way";
    if (!sameState(a.motion.state, b.motion.state)) return "speed, coolant or another mode would differ in it";
    if (!sameFeed(a, b)) return "a feed elsewhere would change";
  }
  return "";
}

function runsOf(motions: readonly Motion[], meant: ReadonlySet<number>): Run[] {
  const runs: Run[] = [];
  let top: Motion | null = null;
  for (const motion of motions) {
    const down = motion.kind === "feed" && straightDown(top, motion);
    const piece = { toZ: motion.z ?? 0, f: motion.state.f };
    const last = runs.at(-1);
    if (down && last !== undefined && last.pieces.length > 0) {
      runs[runs.length - 1] = {
        motion,
        pieces: [...last.pieces, piece],
        meant: last.meant || meant.has(motion.block),
      };
    } else runs.push({ motion, pieces: down ? [piece] : [], meant: meant.has(motion.block) });
    top = motion;
  }
  return runs;
}

function straightDown(from: Motion | null, to: Motion): boolean {
  return from !== null && from.z !== null && to.z !== null && to.z < from.z && from.x === to.x && from.y === to.y;
}

/** Everything that a drill meets but the feed, which runs of feeds compare by themselves. */
function sameState(a: ModalState, b: ModalState): boolean {
  return (
    a.s === b.s &&
    a.spindle === b.spindle &&
    a.speedMode === b.speedMode &&
    a.feedMode === b.feedMode &&
    a.tool === b.tool &&
    a.wcs === b.wcs &&
    a.units === b.units &&
    a.plane === b.plane &&
    a.distance === b.distance &&
    a.returnMode === b.returnMode &&
    a.comp === b.comp &&
    a.lengthOffset.code === b.lengthOffset.code &&
    a.lengthOffset.h === b.lengthOffset.h &&
    a.coolant.join() === b.coolant.join()
  );
}

function sameFeed(a: Run, b: Run): boolean {
  if (a.motion.kind !== "feed" && a.motion.kind !== "arc") return true;
  if (a.pieces.length === 0 || b.pieces.length === 0) return a.motion.state.f === b.motion.state.f;
  const levels = [...a.pieces, ...b.pieces].map(({ toZ }) => toZ);
  return levels.every((z) => {
    const [old, now] = [feedAt(a.pieces, z), feedAt(b.pieces, z)];
    return old === now || (a.meant && old !== null && now !== null && now < old);
  });
}

/** Feed in force just above a height. */
function feedAt(pieces: readonly Piece[], z: number): number | null {
  return (pieces.find((piece) => piece.toZ <= z + FINE) ?? pieces.at(-1))?.f ?? null;
}
