import { at, type Candidate, contactPlace, perCause } from "./cause.ts";
import { type Inherited, inheritedOf, type Left } from "./inherited.ts";
import type { Check, CheckContext, FindingSeverity } from "./types.ts";
import { feedWord, listed, speedWord, toolName } from "./wording.ts";

/** Runs after the checks on speeds, feeds and loads: they keep back for it what a word of another tool causes. */
export const speedInherited: Check = {
  id: "speed-inherited",
  family: "feed",
  severity: "warning",
  docs: {
    title: "S or F of the tool before is still in force",
    what: "A tool that drills with the S or F of another tool, where that does not suit it: the speed or the feed is outside its window or a limit.",
    why: "S and F stay through a tool change. A line that was left out lets the drill run at what the last tool ran at.",
    formula: "",
    example:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nT5 M6\nG0 X20. Y0. M3\nG43 H5 Z50. M8\nG4 P3000\nG99 G81 X20. Y0. Z-20. R3. F108.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nT5 M6\nG0 X20. Y0. S600 M3\nG43 H5 Z50. M8\nG4 P3000\nG99 G81 X20. Y0. Z-20. R3. F108.\nG80 M9\nM30\n%",
    limits:
      "Silent where the tool can run at what is in force, as with like drills that share an S. Where the word is as wrong for the tool it was written for, it is told at the word.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* perCause("speed-inherited", context, candidates(context));
  },
};

const RANK: { readonly [S in FindingSeverity]: number } = { info: 0, warning: 1, error: 2 };
/** Beyond the limit by this much the word was surely not meant for the tool. Common practice, no source. */
const FAR = 1.25;

function* candidates(context: CheckContext): Generator<Candidate> {
  const causes = new Map<number, Inherited[]>();
  for (const inherited of inheritedOf(context)) {
    const { index } = inherited.candidate.hole.operation;
    const same = causes.get(index);
    if (same === undefined) causes.set(index, [inherited]);
    else same.push(inherited);
  }
  for (const [operation, all] of causes) {
    const words = together(all);
    const worst = all.reduce((a, b) => (graver(b.candidate, a.candidate) ? b : a)).candidate;
    const message = messageOf(context, worst, words);
    // The same hole may have been found by several checks, by its first stroke or by its fastest one.
    const holes = new Map(all.map(({ candidate }) => [candidate.hole.shape.id, candidate.hole]));
    for (const hole of holes.values()) {
      yield {
        key: `o${operation}`,
        severity: severityOf(all),
        weight: hole.shape.id === worst.hole.shape.id ? 1 : 0,
        place: contactPlace(context, hole),
        hole,
        message,
        data: worst.data,
        related: words.map(({ ref, tool }) => ({
          place: at(context, ref, hole.firstBlock),
          message: `Written for ${toolName(tool)}`,
        })),
      };
    }
  }
}

/** Words that any of the causes names, S first. */
function together(all: readonly Inherited[]): readonly Left[] {
  const words = all.flatMap((one) => one.words);
  return (["S", "F"] as const).flatMap((letter) => words.find((word) => word.letter === letter) ?? []);
}

function graver(a: Candidate, b: Candidate): boolean {
  return RANK[a.severity] > RANK[b.severity];
}

function severityOf(all: readonly Inherited[]): FindingSeverity {
  let worst: FindingSeverity = "info";
  for (const { candidate } of all) {
    const { measured, limit } = candidate.data ?? { measured: null, limit: null };
    const share = measured === null || limit === null || !(limit > 0) ? 1 : measured / limit;
    const far = share > FAR || share < 1 / FAR;
    const level = far && candidate.severity === "info" ? "warning" : candidate.severity;
    if (RANK[level] > RANK[worst]) worst = level;
  }
  return worst;
}

function messageOf(context: CheckContext, { hole, message }: Candidate, words: readonly Left[]): string {
  const { blocks } = context.execution;
  const tool = toolName(hole.shape.tool);
  const none = words.map(({ letter }) => `no ${letter}`).join(" and ");
  const text = ({ ref, letter }: Left): string => {
    const span = blocks.spanOf(ref);
    return span === null ? letter : blocks.textOf(span.block).slice(span.start, span.end).replace(/\s+/g, "");
  };
  const sources = [...new Set(words.map((word) => word.tool))];
  const still =
    sources.length === 1
      ? `${listed(words.map(text))} of ${toolName(sources[0] ?? null)}`
      : listed(words.map((word) => `${text(word)} of ${toolName(word.tool)}`));
  const what = message.replace(/ Way out:.*$/s, "");
  return `N${none.slice(1)} since the tool change to ${tool}: ${still} ${words.length === 1 ? "is" : "are"} still in force. ${what} Way out: ${wayOut(context, hole, words)} in this operation.`;
}

/** Words that suit the tool, from the middle of its window; without one only their letters. */
function wayOut(context: CheckContext, { loads, shape }: Candidate["hole"], words: readonly Left[]): string {
  const { n, vc, window, limits, engagement, tool } = loads;
  const nominal = window?.vc?.[1];
  const wanted =
    nominal === undefined || n === null || vc === null || vc <= 0
      ? null
      : Math.min((nominal * n) / vc, limits.rpm ?? Number.POSITIVE_INFINITY);
  const withS = words.some(({ letter }) => letter === "S");
  const feed = shape.kind === "tap" ? (tool?.lead ?? null) : (engagement?.allowedFeed ?? window?.f?.[1] ?? null);
  const told = words.map(({ letter }) => {
    if (letter === "S") return wanted === null ? "S" : speedWord(wanted);
    const speed = withS ? wanted : n;
    return (feed === null ? null : feedWord(feed, speed, shape.state, context.system)) ?? "F";
  });
  const open = told.some((word) => word.length === 1);
  return `${listed(told)}${open ? ` for ${toolName(shape.tool)}` : " or so"}`;
}
