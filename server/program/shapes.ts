/** Everything about a hole but its place: drawn up while drilling, shared once it is known. */
import type { WordRef } from "../../grammar/blocks.ts";
import type { NotedEntry } from "./notes.ts";
import type { SurfaceHit } from "./surface.ts";
import type { HoleKind, HoleShape, ModalState, Stroke, StrokeState } from "./types.ts";

export interface DraftStroke {
  readonly from: number;
  readonly to: number;
  /** NaN unknown. */
  readonly f: number;
  readonly n: number;
  readonly fRef: WordRef;
  /** Row and step of the values in force for this stroke, where they may differ from the draught's. */
  readonly rowId?: number;
  readonly step?: number;
}

export interface Draft {
  readonly operation: number;
  readonly kind: HoleKind;
  readonly longHand: boolean;
  /** Index of the drill axis. */
  readonly w: number;
  readonly axis: "x" | "y" | "z";
  /** NaN unknown. */
  readonly startZ: number;
  readonly endZ: number;
  readonly strokes: readonly DraftStroke[];
  /** Long-hand: numbers of the strokes that began after a retract. */
  readonly dives: readonly number[];
  readonly dwell: number;
  readonly fullRetracts: boolean;
  readonly peck: number;
  readonly tool: number | null;
  readonly wcs: string;
  /** Row of the values in force and the step they are of: the shared state is made only for a new shape. */
  readonly rowId: number;
  readonly step: number;
  readonly refs: HoleShape["refs"];
  readonly unknown: Readonly<Record<string, string>>;
  /** The tool left by rapid along the axis: nobody does that after a mere approach. */
  readonly rapidUp: boolean;
}

export interface PriorHole {
  readonly diameter: number;
  /** In program coordinates. */
  readonly toZ: number;
  /** Of the tool that drilled it; null unknown. */
  readonly tool: number | null;
}

export interface ShapeRow {
  readonly shape: HoleShape;
  readonly draft: Draft;
  readonly key: string;
  readonly frame: number;
  /** NaN unknown. */
  readonly diameter: number;
}

/** Lengths below this do not differ, mm: sums of increments do not come out exact in binary. */
const FINE = 1e-6;
const round = (value: number): number => (Number.isNaN(value) ? value : Math.round(value * 1e9) / 1e9 + 0);
const forKey = (value: number): string => (Number.isNaN(value) ? "?" : (Math.round(value * 1e6) + 0).toString(36));

/** The text of more strokes stands in a key by its number: keys are looked up for every hole. */
const FEW_STROKES = 4;

/** Texts of the strokes that equal cycles share. */
const texts = new WeakMap<readonly DraftStroke[], string>();

function textOf(strokes: readonly DraftStroke[]): string {
  const many = strokes.length > FEW_STROKES;
  const known = many ? texts.get(strokes) : undefined;
  if (known !== undefined) return known;
  let text = "";
  for (const s of strokes) text += `;${forKey(s.from)},${forKey(s.to)},${forKey(s.f * 1000)},${forKey(s.n)}`;
  if (many) texts.set(strokes, text);
  return text;
}

/**
 * A text that is equal where and only where two holes differ in nothing but their place and the words that made them.
 * @param numbers texts of strokes by number; the same for all keys that are compared
 * @param strokeKeys what each stroke has in force where that is not what the hole has; null: nowhere
 */
export function shapeKey(
  draft: Draft,
  cutKey: number,
  strokeKeys: readonly number[] | null,
  surface: SurfaceHit,
  priors: readonly PriorHole[],
  noted: string,
  frame: number,
  numbers: Map<string, number>,
): string {
  let key = `${draft.operation}|${draft.kind}|${draft.longHand ? 1 : 0}|${frame}|${forKey(draft.startZ)}|${forKey(draft.endZ)}`;
  key += `|${forKey(surface.z)}${surface.declared ? "d" : "a"}|${forKey(draft.dwell)}|${forKey(draft.peck)}`;
  key += `|${draft.fullRetracts ? 1 : 0}|${cutKey}|${noted}|${draft.tool ?? ""}`;
  const strokes = textOf(draft.strokes);
  if (draft.strokes.length <= FEW_STROKES) key += strokes;
  else {
    const number = numbers.get(strokes) ?? numbers.size;
    if (number === numbers.size) numbers.set(strokes, number);
    key += `;#${number}`;
  }
  if (strokeKeys !== null) key += `@${strokeKeys.join()}`;
  for (const p of priors) key += `!${forKey(p.diameter)},${forKey(p.toZ)},${p.tool}`;
  for (const name in draft.unknown) key += `?${name}=${draft.unknown[name]}`;
  return key;
}

const DRILLED: ReadonlySet<HoleKind> = new Set<HoleKind>(["drill", "peck", "chip-break"]);

/** Whether two draughts of one place are one hole rather than different work (a bore after a drill). */
export function mergeable(row: ShapeRow, later: Draft): boolean {
  const first = row.draft;
  if (first.axis !== later.axis) return false;
  if (first.kind !== later.kind && !(DRILLED.has(first.kind) && DRILLED.has(later.kind))) return false;
  return !Number.isNaN(first.endZ) && !Number.isNaN(later.endZ) && !Number.isNaN(first.startZ);
}

/** Two draughts of one place as one hole; null where they are not one. */
export function mergeDraft(row: ShapeRow, later: Draft): Draft | null {
  const first = row.draft;
  if (!mergeable(row, later)) return null;
  const deeper = later.endZ < first.endZ - FINE;
  const drilled = DRILLED.has(first.kind);
  const kind =
    drilled && deeper && first.kind === "drill" ? (later.kind === "drill" ? "peck" : later.kind) : first.kind;
  const own = later.strokes.map((s) => (s.rowId === undefined ? { ...s, rowId: later.rowId, step: later.step } : s));
  const strokes = [...first.strokes, ...own];
  return {
    ...first,
    kind,
    // A stroke that goes no deeper runs in the hole that is there: it does not begin the hole anew.
    startZ: deeper ? Math.max(first.startZ, later.startZ) : first.startZ,
    endZ: Math.min(first.endZ, later.endZ),
    strokes,
    dives: [...first.dives, first.strokes.length, ...later.dives.map((d) => d + first.strokes.length)],
    dwell: Math.max(first.dwell, later.dwell),
    fullRetracts: first.fullRetracts && later.fullRetracts,
    peck: drilled && deeper ? Math.max(first.peck, later.peck, largestStep(strokes)) : first.peck,
    refs: deeper ? { ...later.refs, r: first.refs.r } : first.refs,
    unknown: { ...first.unknown, ...later.unknown },
  };
}

const NO_STROKES: readonly DraftStroke[] = [];

/** A draught to keep: strokes that the shape tells just as well are left out. */
export function withoutStrokes(draft: Draft): Draft {
  const own = draft.strokes.some((s) => s.rowId !== undefined);
  return own || draft.strokes.length === 0 ? draft : { ...draft, strokes: NO_STROKES };
}

/** A kept draught made whole. */
export function withStrokes(draft: Draft, shape: HoleShape): Draft {
  if (draft.strokes !== NO_STROKES) return draft;
  const strokes = shape.strokes.map(({ fromZ, toZ, f, n, fRef }) => ({
    from: fromZ,
    to: toZ,
    f: f ?? Number.NaN,
    n: n ?? Number.NaN,
    fRef,
  }));
  return { ...draft, strokes };
}

/** The same draught, its steps counted `shift` later: steps before it came or went in an edit. */
export function shiftSteps(draft: Draft, shift: number): Draft {
  if (shift === 0) return draft;
  return {
    ...draft,
    step: draft.step + shift,
    strokes: draft.strokes.map((s) => (s.step === undefined ? s : { ...s, step: s.step + shift })),
  };
}

/** The same draught read in coordinates that lie `shift` lower along the drill axis. */
export function shiftDraft(draft: Draft, shift: number): Draft {
  if (shift === 0) return draft;
  return {
    ...draft,
    startZ: draft.startZ + shift,
    endZ: draft.endZ + shift,
    strokes: draft.strokes.map((s) => ({ ...s, from: s.from + shift, to: s.to + shift })),
  };
}

function largestStep(strokes: readonly DraftStroke[]): number {
  let deepest = strokes[0]?.from ?? 0;
  let step = 0;
  for (const s of strokes) {
    if (s.to >= deepest) continue;
    step = Math.max(step, deepest - s.to);
    deepest = s.to;
  }
  return round(step);
}

/**
 * Whether a shape of an earlier execution with the same key is this one in everything but its number, words included:
 * then it is kept, and with it all that was worked out for it.
 */
export function sameShape(
  old: HoleShape,
  draft: Draft,
  noted: NotedEntry | null,
  state: ModalState,
  own: StrokeStates,
): boolean {
  const { refs, strokes } = old;
  return (
    // Notes are read anew from the text each time: the object differs where the line was read again.
    (old.entry ?? null) === (noted?.entry ?? null) &&
    (old.exit ?? null) === (noted?.exit ?? null) &&
    refs.z === draft.refs.z &&
    refs.r === draft.refs.r &&
    refs.q === draft.refs.q &&
    refs.cycle === draft.refs.cycle &&
    strokes.every((stroke, i) => stroke.fRef === draft.strokes[i]?.fRef && sameOwn(stroke.own, own?.[i])) &&
    sameState(old.state, state)
  );
}

/** By stroke: what it has in force where that is not what the hole has. null: nowhere. */
export type StrokeStates = readonly (StrokeState | undefined)[] | null;

function sameOwn(a: StrokeState | undefined, b: StrokeState | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return a.block === b.block && a.zRef === b.zRef && sameState(a.state, b.state);
}

function sameState(a: ModalState, b: ModalState): boolean {
  for (const key in a) {
    if (key === "from" || key === "lengthOffset" || key === "coolant") continue;
    if (a[key as keyof ModalState] !== b[key as keyof ModalState]) return false;
  }
  if (a.lengthOffset.code !== b.lengthOffset.code || a.lengthOffset.h !== b.lengthOffset.h) return false;
  if (a.coolant.length !== b.coolant.length || a.coolant.some((code, i) => code !== b.coolant[i])) return false;
  for (const key in a.from) if (a.from[key as FromKey] !== b.from[key as FromKey]) return false;
  return true;
}

type FromKey = keyof ModalState["from"];

export interface Contact {
  readonly surfaceZ: number;
  readonly surfaceFrom: HoleShape["surfaceFrom"];
  /** Index of the first stroke in metal; −1 none. */
  readonly firstCut: number;
}

/** Where the hole meets metal, and with which stroke. */
export function contactOf(draft: Draft, surface: SurfaceHit, priors: readonly PriorHole[], diameter: number): Contact {
  const { startZ, endZ } = draft;
  let cleared = Number.POSITIVE_INFINITY;
  for (const prior of priors)
    if (!Number.isNaN(diameter) && prior.diameter >= diameter - 0.005) cleared = Math.min(cleared, prior.toZ);
  let surfaceZ = surface.z;
  let surfaceFrom: HoleShape["surfaceFrom"] = surface.declared ? "stock" : "assumed";
  if (cleared < surfaceZ) {
    surfaceZ = cleared;
    surfaceFrom = "previous-hole";
  }
  const up = draft.kind === "back-bore";
  if (!up && !Number.isNaN(startZ)) {
    // The feed begins in metal, or the assumed surface cannot be right (part zero at the bottom of the part).
    const inMetal = startZ <= surfaceZ + FINE;
    const above = surfaceFrom === "assumed" && endZ >= surfaceZ - FINE && endZ < startZ - FINE;
    if ((inMetal && surfaceFrom !== "previous-hole") || above) {
      surfaceZ = startZ;
      surfaceFrom = "r-plane";
    }
  }
  let firstCut = -1;
  for (let i = 0; i < draft.strokes.length && firstCut < 0; i++) {
    const to = draft.strokes[i]?.to ?? Number.NaN;
    if (up || (to < surfaceZ - FINE && to < cleared - FINE)) firstCut = i;
  }
  return { surfaceZ, surfaceFrom, firstCut };
}

/**
 * Strokes that cut metal: from the first in metal on, those that go deeper than the tool has been. null: not known.
 */
export function cuttingIndexes(shape: HoleShape): ReadonlySet<number> | null {
  const { strokes, firstCut, kind } = shape;
  if (strokes.length === 0) return null;
  const cuts = new Set<number>();
  let deepest = Number.POSITIVE_INFINITY;
  for (let i = Math.max(firstCut, 0); i < strokes.length && firstCut >= 0; i++) {
    const to = strokes[i]?.toZ ?? 0;
    if (kind !== "back-bore" && to >= deepest - FINE) continue;
    cuts.add(i);
    deepest = to;
  }
  return cuts;
}

/** Makes the public, shared form. The state is that of the first stroke in metal. */
export function finishShape(
  id: number,
  draft: Draft,
  surface: SurfaceHit,
  priors: readonly PriorHole[],
  contact: Contact,
  noted: NotedEntry | null,
  state: ModalState,
  own: StrokeStates,
  frame: number,
): HoleShape {
  const { startZ, endZ } = draft;
  const { surfaceZ, surfaceFrom, firstCut } = contact;
  const strokes = draft.strokes.map((s, i): Stroke => {
    const stroke = {
      fromZ: round(s.from),
      toZ: round(s.to),
      f: Number.isNaN(s.f) ? null : s.f,
      n: Number.isNaN(s.n) ? null : s.n,
      fRef: s.fRef,
    };
    const differs = own?.[i];
    return differs === undefined ? stroke : { ...stroke, own: differs };
  });
  return {
    id,
    operation: draft.operation,
    kind: draft.kind,
    longHand: draft.longHand,
    axis: draft.axis,
    startZ: Number.isNaN(startZ) ? null : round(startZ),
    endZ: Number.isNaN(endZ) ? null : round(endZ),
    strokes,
    firstCut,
    surfaceZ: round(surfaceZ),
    surfaceFrom,
    topZ: round(surface.z),
    topDeclared: surface.declared,
    dwell: draft.dwell,
    state,
    tool: draft.tool,
    wcs: draft.wcs,
    frame,
    bored: priors.map(({ diameter: d, toZ, tool }) => ({ diameter: d, toZ: round(toZ), tool })),
    fullRetracts: draft.fullRetracts,
    peck: round(draft.peck),
    refs: draft.refs,
    entry: noted?.entry ?? null,
    exit: noted?.exit ?? null,
    unknown: draft.unknown,
    likeness: {},
  };
}
