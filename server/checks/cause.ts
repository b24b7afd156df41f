/**
 * One finding per cause. Checks give candidates, one per shape of hole; candidates with one ruling word become one
 * finding that names the worst and tells the count.
 */

import type { WordRef } from "../../grammar/blocks.ts";
import type { HoleLoads } from "../loads/types.ts";
import type { HoleShape, Operation } from "../program/types.ts";
import { keepBack, type Ruled } from "./inherited.ts";
import type { CheckContext, Finding, FindingPlace, FindingSeverity } from "./types.ts";

/** A kind of hole that cuts metal, with how often it is made. */
export interface MetalHole {
  readonly operation: Operation;
  readonly shape: HoleShape;
  readonly loads: HoleLoads;
  readonly count: number;
  readonly firstBlock: number;
  readonly firstHole: number;
  /** The hole, where this is a later stroke of it. */
  readonly whole?: MetalHole;
}

interface HoleLists {
  readonly all: readonly MetalHole[];
  readonly metal: readonly MetalHole[];
  readonly any: readonly MetalHole[];
}

/** Two dozen checks walk the same holes: they are gathered once for each run. */
const gathered = new WeakMap<CheckContext, HoleLists>();

function listsOf(context: CheckContext): HoleLists {
  let lists = gathered.get(context);
  if (lists === undefined) {
    const metal: MetalHole[] = [];
    const any: MetalHole[] = [];
    const all: MetalHole[] = [];
    for (const operation of context.execution.operations) {
      for (const use of context.shapesOf(operation)) {
        const { firstCut, startZ, endZ } = use.shape;
        const hole = { operation, ...use };
        all.push(hole);
        if (firstCut < 0 && startZ !== null && endZ !== null) continue;
        any.push(hole);
        if (firstCut >= 0) metal.push(hole);
      }
    }
    lists = { metal, any, all };
    gathered.set(context, lists);
  }
  return lists;
}

/** Holes that cut metal, by shape. Moves inside metal already taken are no cuts and are left out. */
export function metalHoles(context: CheckContext): readonly MetalHole[] {
  return listsOf(context).metal;
}

/**
 * The same with holes of which not even the levels are known (no G20 or G21, a depth from a variable): for checks of
 * states that are wrong for any hole.
 */
export function anyHoles(context: CheckContext): readonly MetalHole[] {
  return listsOf(context).any;
}

/** The same with moves in holes that are there. */
export function allHoles(context: CheckContext): readonly MetalHole[] {
  return listsOf(context).all;
}

export interface Candidate {
  /** Candidates with one key have one cause. */
  readonly key: string;
  readonly severity: FindingSeverity;
  /** How bad, to choose the worst of one cause. */
  readonly weight: number;
  readonly place: FindingPlace;
  readonly hole: MetalHole;
  /** Sentences; the count is added. */
  readonly message: string;
  readonly data: Finding["data"];
  readonly related?: Finding["related"];
  /** S and F that it hangs on: where another tool left them, `speed-inherited` tells it. */
  readonly ruled?: Ruled;
  /**
   * Told where the worst of the cause says another thing: the worst text of each thing said. What is related to each of
   * such candidates is related to the finding.
   */
  readonly also?: { readonly thing: string; readonly text: string };
}

const RANK: { readonly [S in FindingSeverity]: number } = { error: 2, warning: 1, info: 0 };

interface Cause {
  worst: Candidate;
  readonly first: Candidate;
  /** First hole of each kind counted. */
  readonly holes: Set<number>;
  count: number;
  readonly related: Related[];
  /** The worst of each thing said. */
  readonly also: Map<string, Candidate>;
}

function isWorse(a: Candidate, b: Candidate): boolean {
  const more = RANK[a.severity] - RANK[b.severity];
  return more > 0 || (more === 0 && a.weight > b.weight);
}

function addAlso(said: Map<string, Candidate>, candidate: Candidate): void {
  if (candidate.also === undefined) return;
  const worst = said.get(candidate.also.thing);
  if (worst === undefined || isWorse(candidate, worst)) said.set(candidate.also.thing, candidate);
}

/** More than these are told by their number. */
const MOST_ALSO = 3;

function others(said: ReadonlyMap<string, Candidate>, worst: Candidate): string {
  const texts: string[] = [];
  for (const [thing, { also }] of said) if (also !== undefined && thing !== worst.also?.thing) texts.push(also.text);
  if (texts.length === 0) return "";
  const more = texts.length > MOST_ALSO ? `; and ${texts.length - MOST_ALSO} more` : "";
  return ` Also: ${texts.slice(0, MOST_ALSO).join("; ")}${more}.`;
}

type Related = Finding["related"][number];

/** Places related to one finding, at most: who wants more looks at the holes. */
const MOST_RELATED = 6;

function addRelated(list: Related[], one: Related): void {
  if (list.length < MOST_RELATED && !list.some((known) => sameRelated(known, one))) list.push(one);
}

function sameRelated(a: Related, b: Related): boolean {
  if (a.message !== b.message || a.place.in !== b.place.in) return false;
  if (a.place.in === "program" && b.place.in === "program")
    return a.place.span.block === b.place.span.block && a.place.span.start === b.place.span.start;
  if (a.place.in !== "file" || b.place.in !== "file") return false;
  return a.place.file === b.place.file && a.place.line === b.place.line && a.place.column === b.place.column;
}

/** Merges the candidates of one check into one finding per cause. */
export function perCause(check: string, context: CheckContext, candidates: Iterable<Candidate>): Finding[] {
  const causes = new Map<string, Cause>();
  for (const candidate of candidates) {
    const { key } = candidate;
    // Several strokes of one hole are one hole.
    const hole = candidate.hole.whole ?? candidate.hole;
    const cause = causes.get(key);
    if (keepBack(context, candidate, cause?.first)) continue;
    if (cause === undefined) {
      const related = [...(candidate.related ?? [])];
      const holes = new Set([hole.firstHole]);
      const started = {
        worst: candidate,
        first: candidate,
        holes,
        count: candidate.hole.count,
        related,
        also: new Map(),
      };
      addAlso(started.also, candidate);
      causes.set(key, started);
      continue;
    }
    addAlso(cause.also, candidate);
    // Several strokes of one hole, and several things said of it, are one hole.
    if (!cause.holes.has(hole.firstHole)) cause.count += hole.count;
    cause.holes.add(hole.firstHole);
    if (candidate.also !== undefined) for (const place of candidate.related ?? []) addRelated(cause.related, place);
    if (isWorse(candidate, cause.worst)) cause.worst = candidate;
  }
  return [...causes.values()].map(({ worst, first, count, related, also }) => ({
    check,
    severity: worst.severity,
    // It stands where the cause begins; the worst is named.
    place: first.place,
    message: worst.message + others(also, worst) + howMany(context, count, first, worst.hole),
    count,
    related: worst.also === undefined ? (worst.related ?? []) : related,
    data: worst.data,
    operation: worst.hole.operation.index,
  }));
}

/** Count, first and worst; of a single hole its line, where the finding stands on a word of another block. */
function howMany(context: CheckContext, count: number, { hole: first, place }: Candidate, worst: MetalHole): string {
  const named = context.nameOf(first.firstBlock);
  if (count <= 1) {
    const { blocks } = context.execution;
    // A later stroke of the hole is in its own lines.
    const away = place.in !== "program" || blocks.lineOf(place.span.block) < blocks.lineOf(first.firstBlock);
    return away ? ` 1 hole, ${named}.` : "";
  }
  const worstNamed = worst.firstBlock === first.firstBlock ? "" : `, worst ${context.nameOf(worst.firstBlock)}`;
  return ` ${count} holes, first ${named}${worstNamed}.`;
}

/** Place of a word of the program; the whole block where the word is not there. */
export function at(context: CheckContext, ref: WordRef, block: number): FindingPlace {
  return { in: "program", span: context.spanOf(ref, block) };
}

/** The word under which a hole's depth is found: the depth word, else the cycle, else the block. */
export function depthPlace(context: CheckContext, hole: MetalHole): FindingPlace {
  const { z, cycle } = hole.shape.refs;
  return at(context, z !== 0 ? z : cycle, hole.firstBlock);
}

/** The word that makes the hole: the cycle code, else the depth word of a long-hand hole, else the block. */
export function cyclePlace(context: CheckContext, hole: MetalHole): FindingPlace {
  const { z, cycle } = hole.shape.refs;
  return at(context, cycle !== 0 ? cycle : z, hole.firstBlock);
}

/** Where the tool first meets metal: the cycle code or depth word of the block that ran the hole, else that block. */
export function contactPlace(context: CheckContext, hole: MetalHole): FindingPlace {
  const { z, cycle } = hole.shape.refs;
  for (const ref of [cycle, z]) {
    const place = at(context, ref, hole.firstBlock);
    if (ref !== 0 && place.in === "program" && place.span.block === hole.firstBlock) return place;
  }
  return at(context, 0, hole.firstBlock);
}

/** S and F that rule a feed or a load. */
export function ruledBy(hole: MetalHole, fRef: WordRef, what: Ruled["what"]): Ruled {
  return { s: hole.shape.state.from.s, f: fRef, what };
}

/** Key by a ruling word; where there is none (0), by operation. */
export function keyOf(ref: WordRef, hole: MetalHole): string {
  return ref !== 0 ? `w${ref}` : `o${hole.operation.index}`;
}

/** Key of a cause that sits in the hole itself: its cycle data, or the operation when drilled in long hand. */
export function holeKey(hole: MetalHole): string {
  const { longHand, refs } = hole.shape;
  return longHand ? `o${hole.operation.index}` : `o${hole.operation.index}z${refs.z}c${refs.cycle}`;
}

/** Key of entries that the part tells: one cause, however the surroundings differ. */
export const STOCK = "|stock";

/**
 * Key of the note or setup entry that tells the hole's entry. A note in the hole's own block speaks of that hole only:
 * such notes that say the same are one cause.
 */
export function entryKey(hole: MetalHole): string {
  const { entry, around } = hole.shape;
  if (entry === null) return around === undefined ? "" : STOCK;
  if (entry.span === null) return `|${entry.path ?? ""}`;
  return entry.span.block === hole.firstBlock ? "|own" : `|${entry.span.block}:${entry.span.start}`;
}
