/** The stretches of a feed move, each with the feed that its part of the depth allows. Pure numbers: mm and mm/rev. */

export interface Step {
  /** Tip height where the stretch ends, mm. */
  readonly toZ: number;
  /** mm/rev; null: as programmed. */
  readonly f: number | null;
}

export interface SlowZone {
  readonly fromZ: number;
  readonly toZ: number;
  readonly where: "entry" | "inside" | "exit";
  /** mm/rev */
  readonly allowed: number;
}

/** mm: no change of feed is worth less depth than this (common practice, no source). */
const SHORTEST = 1;

/**
 * @param grid heights of a change of feed stand on multiples of this, mm: a stretch at reduced feed only grows by it
 * @returns at least one step, the last one ending at `toZ`
 */
export function stepsOf(
  fromZ: number,
  toZ: number,
  f: number,
  zones: readonly SlowZone[],
  grid: number,
): readonly Step[] {
  const slow = zones
    .filter((zone) => zone.allowed < f)
    .map((zone) => ({ ...grown(zone, fromZ, toZ, grid), allowed: zone.allowed }))
    .filter((zone) => zone.top > zone.bottom);
  const heights = [fromZ, toZ, ...slow.flatMap((zone) => [zone.top, zone.bottom])];
  const levels = [...new Set(heights)].sort((a, b) => b - a);
  const steps: Step[] = [];
  for (let i = 1; i < levels.length; i++) {
    const [above = fromZ, below = toZ] = [levels[i - 1], levels[i]];
    const ruling = slow.filter((zone) => zone.top >= above && zone.bottom <= below);
    const allowed = ruling.length === 0 ? null : Math.min(...ruling.map((zone) => zone.allowed));
    if (steps.at(-1)?.f === allowed) steps.pop();
    steps.push({ toZ: below, f: allowed });
  }
  return steps;
}

/** A zone within the stroke, its ends on the grid. What is left beside it and too short to change for joins it. */
function grown(zone: SlowZone, fromZ: number, toZ: number, grid: number): { top: number; bottom: number } {
  // Before the first contact lies air: one feed from the beginning is simpler than two.
  const top = zone.where === "entry" ? fromZ : onGrid(zone.fromZ, grid, Math.ceil);
  const bottom = onGrid(zone.toZ, grid, Math.floor);
  return {
    top: top > fromZ - SHORTEST ? fromZ : top,
    bottom: bottom < toZ + SHORTEST ? toZ : bottom,
  };
}

function onGrid(value: number, grid: number, round: (value: number) => number): number {
  const near = Math.round(value / grid);
  const count = Math.abs(value / grid - near) < 1e-6 ? near : round(value / grid);
  return count * grid;
}
