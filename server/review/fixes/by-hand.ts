/** One hole of a drilling cycle written out: across, down to R, the feed moves, back up. */
import type { Execution, HoleShape, Motion } from "../../program/types.ts";
import { comments, line, readBlock, type WrittenBlock, without } from "./block-words.ts";
import { height } from "./numbers.ts";
import type { SlowZone } from "./steps.ts";
import { feedAgain, strokeWords } from "./stroke-words.ts";
import type { Trace } from "./trace.ts";
import { cannot } from "./types.ts";

export interface CycleBlock {
  readonly block: number;
  /** As a person finds it. */
  readonly name: string;
  readonly shape: HoleShape;
  readonly zones: readonly SlowZone[];
  /** A cycle is on before the block, and must be ended. */
  readonly running: boolean;
}

/** Words of the block that the cycle alone reads; a repeat count is refused before. */
const CYCLE_ONLY = "ZRPQLK";

interface Way {
  /** Heights of rapids before and after the move across, null: none. */
  readonly rise: Motion | null;
  readonly across: boolean;
  readonly drop: Motion | null;
  readonly cut: Motion;
  readonly up: Motion;
  readonly last: number;
}

/** @param rewritten blocks that get an F of their own */
export function byHand(
  { block, name, shape, zones, running }: CycleBlock,
  execution: Execution,
  trace: Trace,
  rewritten: ReadonlySet<number>,
): string[] {
  const written = readBlock(execution.blocks, block, name);
  const way = wayOf(block, name, shape.startZ, trace);
  const { state } = way.cut;
  const level = (of: Motion): string => `Z${height(of.z ?? 0, execution, state.from.r, state)}`;
  const stroke = shape.strokes[0] ?? cannot(`${name} drills nothing`);
  const feeds = strokeWords({ ...stroke, zRef: state.from.z, zones, state }, execution);
  const again = feedAgain(feeds, way.last, state, execution, trace, rewritten);
  const place = without(written, "").filter(({ letter }) => "XY".includes(letter));
  if (way.across && place.length === 0) cannot(`${name} moves to its place by other words than X and Y`);
  const moves: string[][] = [];
  if (way.rise !== null) moves.push(["G0", level(way.rise)]);
  if (place.length > 0) moves.push(["G0", ...place.map((word) => word.text)]);
  if (way.drop !== null) moves.push(["G0", level(way.drop)]);
  const firstCut = moves.length;
  feeds.forEach((words, i) => {
    moves.push(i === 0 ? ["G1", ...words] : words);
  });
  moves.push(["G0", level(way.up), ...(again === "" ? [] : [again])]);
  const lines = dressed(written, moves, firstCut);
  return running ? [line(written, ["G80"], []), ...lines] : lines;
}

/** The moves as lines: what else stands in the block goes with the first, a note on the cut with the cut. */
function dressed(written: WrittenBlock, moves: readonly string[][], firstCut: number): string[] {
  const number = written.words.filter((word) => word.letter === "N").map((word) => word.text);
  const others = without(written, `N${CYCLE_ONLY}XYF`).filter((word) => !isMotion(word.letter, word.value));
  const [g, rest] = [others.filter((word) => word.letter === "G"), others.filter((word) => word.letter !== "G")];
  const all = comments(written);
  const notes = all.filter((comment) => CUT_NOTE.test(comment));
  const plain = all.filter((comment) => !CUT_NOTE.test(comment));
  return moves.map((move, i) => {
    const own = i === 0 ? [...number, ...g.map((w) => w.text), ...move, ...rest.map((w) => w.text)] : move;
    const said = [...(i === 0 ? plain : []), ...(i === firstCut ? notes : [])];
    return line(written, own, said);
  });
}

/** A note within the parentheses rules the hole of its block, so it stands where the hole begins. */
const CUT_NOTE = /^[(;]\s*CUT\b/i;

/** mm */
const FINE = 1e-6;

const isMotion = (letter: string, value: number): boolean =>
  letter === "G" && ((value >= 0 && value <= 3) || (value >= 73 && value < 90));

function wayOf(block: number, name: string, startZ: number | null, trace: Trace): Way {
  const own = trace.of(block).map((i) => ({ i, motion: trace.motions[i] as Motion }));
  const moves = own.filter(({ motion }) => motion.kind !== "coolant" && motion.kind !== "spindle");
  const cuts = moves.filter(({ motion }) => motion.kind === "feed");
  const [cut] = cuts;
  if (cut === undefined) return cannot(`${name} drills nothing`);
  if (cuts.length > 1) cannot(`${name} drills more than once`);
  if (moves.some(({ motion }) => motion.kind !== "feed" && motion.kind !== "rapid"))
    cannot(`${name} does more than drill`);
  const after = own.filter(({ i }) => i > cut.i);
  const [up] = after;
  if (after.length > 1) cannot(`${name} does more after the hole than go up`);
  if (up === undefined || up.motion.kind !== "rapid" || up.motion.z === null)
    return cannot(`the level that ${name} returns to is not known`);
  let [z, across] = [trace.motions[(own[0]?.i ?? 0) - 1]?.z ?? null, false];
  let [rise, drop]: (Motion | null)[] = [null, null];
  for (const { i, motion } of moves) {
    if (i >= cut.i) break;
    // Anywhere but at R the cycle goes across; the height before may be told in other coordinates (G52).
    if (motion.z === z || !(Math.abs((motion.z ?? Number.NaN) - (startZ ?? 0)) < FINE)) across = true;
    else if (z !== null && motion.z !== null && motion.z > z && !across) rise = motion;
    else drop = motion;
    z = motion.z;
  }
  return { rise: rise ?? null, across, drop: drop ?? null, cut: cut.motion, up: up.motion, last: up.i };
}
