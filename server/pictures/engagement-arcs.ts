/** Arcs of one turn as a picture needs them: each of a piece, also over 0. */

/** Radians; `from` lies within 0 to 2π or just before, `to` above it. */
export interface Arc {
  readonly from: number;
  readonly to: number;
}

export const TURN = 2 * Math.PI;
const TINY = 1e-9;

export const whole = (arc: Arc): boolean => arc.to - arc.from >= TURN - TINY;

/** The angle within 0 to 2π. */
export const wrapped = (angle: number): number => ((angle % TURN) + TURN) % TURN;

/** The short way from one angle to another, -π to π. */
export const turnedBy = (from: number, to: number): number => wrapped(to - from + Math.PI) - Math.PI;

/** [from, to, from, to, ...] as separate arcs, rising; those that overlap or touch are one. */
export function joinedArcs(pairs: readonly number[]): Arc[] {
  const arcs: Arc[] = [];
  for (let i = 0; i + 1 < pairs.length; i += 2) {
    const from = pairs[i] as number;
    const length = Math.min(TURN, (pairs[i + 1] as number) - from);
    if (!Number.isFinite(from) || !(length > TINY)) continue;
    const start = wrapped(from);
    arcs.push({ from: start, to: start + length });
  }
  arcs.sort((a, b) => a.from - b.from);
  const out: Arc[] = [];
  for (const arc of arcs) {
    const before = out.at(-1);
    if (before !== undefined && arc.from <= before.to + TINY)
      out[out.length - 1] = { from: before.from, to: Math.max(before.to, arc.to) };
    else out.push(arc);
  }
  return overZero(out);
}

/** Joins what reaches over the end of the turn with what it meets there. */
function overZero(arcs: Arc[]): Arc[] {
  for (;;) {
    const first = arcs[0];
    const last = arcs.at(-1);
    if (first === undefined || last === undefined) return arcs;
    if (whole(last)) return [{ from: 0, to: TURN }];
    if (arcs.length === 1 || last.to < first.from + TURN - TINY) return arcs;
    arcs.pop();
    arcs[0] = { from: last.from - TURN, to: Math.max(first.to, last.to - TURN) };
  }
}
