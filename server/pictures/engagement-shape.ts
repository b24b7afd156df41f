/**
 * The part of a drill's front that is in metal, as path data. Rings of arcs come in. The edge between metal and air goes
 * straight from the middle of a ring to the middle of the next wherever it goes on, and where it begins or ends it is
 * closed as a straight edge would be, so that a few rings draw a smooth edge and hold the area of the front.
 */

import { type Arc, joinedArcs, TURN, turnedBy, whole, wrapped } from "./engagement-arcs.ts";
import { px } from "./svg.ts";

/** A ring of the front. */
export interface EngagedRing {
  /** mm */
  readonly fromR: number;
  readonly toR: number;
  /** [from, to, from, to, ...] in metal at the middle of the ring, radians counter-clockwise from the first axis. */
  readonly arcs: readonly number[];
}

export interface EngagedShape {
  /** Outline of the area in metal, to be filled even-odd; empty when there is none. */
  readonly metal: string;
  /** What of the drill's outline is in metal; empty when nothing. */
  readonly rim: string;
}

/** Where the front stands in the picture. */
export interface Placed {
  readonly x: number;
  readonly y: number;
  /** Outline, mm and pixels. */
  readonly radiusMm: number;
  readonly radiusPx: number;
}

type Side = "inward" | "outward";

/** Where an arc begins or ends at the middle of a ring. */
interface End {
  readonly r: number;
  readonly angle: number;
  readonly start: boolean;
  inward: Way | null;
  outward: Way | null;
  drawn: boolean;
}

/** The outline from one end to another. */
interface Way {
  readonly to: End;
  /** On which side of the other end it arrives. */
  readonly side: Side;
  readonly path: string;
}

interface Band {
  readonly lo: number;
  readonly hi: number;
  readonly arcs: readonly Arc[];
  /** Rising angles; starts and ends take turns. None when the ring is whole or empty. */
  readonly ends: readonly End[];
}

const TINY = 1e-9;
/** An end that turns by more than this from ring to ring does so in a step at the border, radians. */
const SLANT = 0.7;
/** One that turns by more than this is another end. */
const SAME_END = Math.PI / 2;
/** A gap or an island that ends and is wider than this does so along the border of its ring, radians. */
const WIDE = 1.4;
/** A ring of more ends than this is not matched: nobody could see the difference. */
const MOST_ENDS = 64;

export function engagedShape(rings: readonly EngagedRing[], at: Placed): EngagedShape {
  const bands = bandsOf(rings, at.radiusMm);
  const draw = pencil(at);
  const out: string[] = [];
  for (let i = 0; i <= bands.length; i++) out.push(...connect(bands[i - 1], bands[i], draw));
  for (const end of bands.flatMap((band) => band.ends)) if (!end.drawn) out.push(loop(end, draw));
  const last = bands.at(-1);
  const rim = last === undefined || last.hi < at.radiusMm * (1 - TINY) ? [] : last.arcs;
  return { metal: out.join(""), rim: rim.map((arc) => draw.arc(at.radiusMm, arc)).join("") };
}

/** Sound rings from the axis outward, empty ones where some are missing between. */
function bandsOf(rings: readonly EngagedRing[], radiusMm: number): Band[] {
  const out: Band[] = [];
  const add = (lo: number, hi: number, arcs: readonly Arc[]): void => {
    if (hi - lo > TINY * radiusMm) out.push({ lo, hi, arcs, ends: endsOf((lo + hi) / 2, arcs) });
  };
  for (const ring of [...rings].sort((a, b) => a.fromR - b.fromR)) {
    if (!(ring.toR > ring.fromR)) continue;
    const before = out.at(-1)?.hi;
    const lo = Math.max(0, ring.fromR, before ?? 0);
    if (before !== undefined && lo < radiusMm) add(before, lo, []);
    add(lo, Math.min(radiusMm, ring.toR), joinedArcs(ring.arcs));
  }
  return out;
}

function endsOf(r: number, arcs: readonly Arc[]): End[] {
  const end = (angle: number, start: boolean): End => ({
    r,
    angle: wrapped(angle),
    start,
    inward: null,
    outward: null,
    drawn: false,
  });
  return arcs
    .filter((arc) => !whole(arc))
    .flatMap(({ from, to }) => [end(from, true), end(to, false)])
    .sort((a, b) => a.angle - b.angle);
}

type Pencil = ReturnType<typeof pencil>;

/** Joins the ends of two neighbouring rings; gives the circles that stand between them. No inner: the innermost ring. */
function connect(inner: Band | undefined, outer: Band | undefined, draw: Pencil): string[] {
  const border = inner?.hi ?? outer?.lo ?? 0;
  const a = inner?.ends ?? [];
  const b = outer?.ends ?? [];
  if (a.length === 0 && b.length === 0) {
    const changes = filled(inner) !== filled(outer);
    return changes && border > 0 ? [`${draw.arc(border, { from: 0, to: TURN })}Z`] : [];
  }
  for (const [here, there] of matched(a, b)) {
    here.outward = { to: there, side: "inward", path: onward(here, there, border, draw) };
    there.inward = { to: here, side: "outward", path: onward(there, here, border, draw) };
  }
  const ended = inner === undefined || outer === undefined;
  const base = ended ? false : mostlyMetal(inner, outer);
  const floor = inner === undefined ? 0 : (inner.lo + inner.hi) / 2;
  const closing = { border, floor, ended, draw };
  for (const [from, to] of leftOver(a, "outward", base)) close(from, to, "outward", closing);
  for (const [from, to] of leftOver(b, "inward", base)) close(from, to, "inward", closing);
  return [];
}

const filled = (band: Band | undefined): boolean => band?.arcs[0] !== undefined && whole(band.arcs[0]);

/** What lies where nothing of the one ring goes on in the other: islands end and begin in air, gaps in metal. */
function mostlyMetal(inner: Band, outer: Band): boolean {
  if (inner.ends.length === 0) return filled(inner);
  if (outer.ends.length === 0) return filled(outer);
  const metal = [...inner.arcs, ...outer.arcs].reduce((sum, { from, to }) => sum + to - from, 0);
  return metal >= TURN;
}

function onward(from: End, to: End, border: number, draw: Pencil): string {
  const turn = turnedBy(from.angle, to.angle);
  const target = draw.line(to.r, to.angle);
  if (Math.abs(turn) <= SLANT) return target;
  return draw.line(border, from.angle) + draw.sweep(border, from.angle, from.angle + turn) + target;
}

/**
 * Ends of one ring that go on as ends of the next: starts and ends by turns and never past each other, so that between
 * two of them both rings have the same ground and the others close in pairs.
 */
function matched(a: readonly End[], b: readonly End[]): (readonly [End, End])[] {
  if (a.length > MOST_ENDS || b.length > MOST_ENDS) return [];
  const found: { readonly pair: readonly [End, End]; readonly arrives: number }[] = [];
  for (const here of a) {
    const there = nearest(here, b);
    if (there === null || nearest(there, a) !== here) continue;
    const arrives = here.angle + turnedBy(here.angle, there.angle);
    const before = found.at(-1);
    if (before === undefined || (before.pair[0].start !== here.start && before.arrives < arrives))
      found.push({ pair: [here, there], arrives });
  }
  const first = found[0]?.arrives ?? 0;
  while (found.length % 2 === 1 || (found.at(-1)?.arrives ?? first) >= first + TURN) found.pop();
  return found.map(({ pair }) => pair);
}

function nearest(end: End, among: readonly End[]): End | null {
  let best: End | null = null;
  let least = SAME_END;
  for (const other of among) {
    const apart = Math.abs(turnedBy(end.angle, other.angle));
    if (other.start === end.start && apart < least) {
      best = other;
      least = apart;
    }
  }
  return best;
}

/** Pairs of neighbours, counter-clockwise, that do not go on towards this side. */
function leftOver(ends: readonly End[], side: Side, base: boolean): (readonly [End, End])[] {
  const joined = ends.findIndex((end) => end[side] !== null);
  const begin = joined >= 0 ? joined : ends.findIndex((end) => end.start !== base);
  const out: (readonly [End, End])[] = [];
  let open: End | null = null;
  for (let i = 0; i < ends.length; i++) {
    const end = ends[(begin + i) % ends.length] as End;
    if (end[side] !== null) continue;
    if (open === null) open = end;
    else {
      out.push([open, end]);
      open = null;
    }
  }
  return out;
}

interface Closing {
  /** Where the two rings meet. */
  readonly border: number;
  /** A gap that begins outside does not reach as far in as this. */
  readonly floor: number;
  /** There is no ring beyond the border. */
  readonly ended: boolean;
  readonly draw: Pencil;
}

/**
 * A gap or an island that begins does so as a straight edge would, or where that would reach too far in, and where one
 * ends, in a point halfway to the next ring.
 */
function close(from: End, to: End, side: Side, { border, floor, ended, draw }: Closing): void {
  const width = wrapped(to.angle - from.angle);
  const straight = !ended && side === "inward" && from.r * Math.cos(width / 2) >= floor;
  const fits = side === "inward" ? nearestToAxis(from.r, border, width / 2) >= floor : width <= WIDE;
  const way = (a: End, b: End, turn: number): string => {
    const target = draw.line(b.r, b.angle);
    if (straight) return target;
    if (border <= 0) return draw.line(0, 0) + target;
    if (!ended && fits) return draw.line(border, a.angle + turn / 2) + target;
    return draw.line(border, a.angle) + draw.sweep(border, a.angle, a.angle + turn) + target;
  };
  from[side] = { to, side, path: way(from, to, width) };
  to[side] = { to: from, side, path: way(to, from, -width) };
}

/** How near the straight line between two points at these radii, so far turned, comes to the axis. */
function nearestToAxis(a: number, b: number, turn: number): number {
  const apart = Math.sqrt(a * a + b * b - 2 * a * b * Math.cos(turn));
  const within = a * Math.cos(turn) < b && b * Math.cos(turn) < a;
  return within && apart > 0 ? (a * b * Math.sin(turn)) / apart : Math.min(a, b);
}

/** Follows the outline once around. */
function loop(first: End, draw: Pencil): string {
  let out = draw.start(first.r, first.angle);
  let end = first;
  let side: Side = "outward";
  do {
    end.drawn = true;
    const way: Way | null = end[side];
    if (way === null) break;
    out += way.path;
    end = way.to;
    side = way.side === "inward" ? "outward" : "inward";
  } while (end !== first);
  return `${out}Z`;
}

/** Writes path data; the second axis of the part goes up, that of a picture down. */
function pencil({ x, y, radiusMm, radiusPx }: Placed) {
  const scale = radiusPx / radiusMm;
  const point = (r: number, angle: number): string =>
    `${px(x + r * scale * Math.cos(angle))} ${px(y - r * scale * Math.sin(angle))}`;
  const start = (r: number, angle: number): string => `M${point(r, angle)}`;
  /** From where the pencil stands at `from` to `to`; no single arc command may pass half a turn. */
  const sweep = (r: number, from: number, to: number): string => {
    const steps = Math.max(1, Math.ceil(Math.abs(to - from) / 3));
    const radius = px(r * scale);
    let out = "";
    for (let i = 1; i <= steps; i++)
      out += `A${radius} ${radius} 0 0 ${to > from ? 0 : 1} ${point(r, from + ((to - from) * i) / steps)}`;
    return out;
  };
  return {
    start,
    sweep,
    line: (r: number, angle: number): string => `L${point(r, angle)}`,
    arc: (r: number, { from, to }: Arc): string => start(r, from) + sweep(r, from, to),
  };
}
