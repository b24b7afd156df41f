import { VALUE } from "../../grammar/blocks.ts";
import type { Span } from "../text/place.ts";
import { sayLength } from "./length-words.ts";
import { single } from "./one-place.ts";
import type { Check, CheckContext } from "./types.ts";

export const missingPoint: Check = {
  id: "missing-point",
  family: "reading",
  severity: "error",
  docs: {
    title: "A decimal point is missing beside words that have theirs",
    what: "Where the control counts numbers without a point in increments: a length of less than 0.1 mm (0.004 in) while the words beside it, and those of its letter, are more than ten times larger. Where a point makes no difference: whole numbers written in both ways, once.",
    why: "Z-25 is a hole of 0.025 mm, and R2 is a rapid to the surface.",
    formula: "value < 0.1 mm, 10 · value < each length with a point beside it",
    example: "(with decimalMode: least-increment) G21\nG81 X10. Y10. Z-25 R2. F180.",
    better: "(with decimalMode: least-increment) G21\nG81 X10. Y10. Z-25. R2. F180.",
    limits:
      "A letter that is always written without a point is a habit: `dialect-rule` tells it as a warning. Zero, variables, counts, dwells and arguments of macros are not looked at. Silent where the dialect leaves `decimalMode` undeclared.",
    source: "common practice, no source; the levels as well",
  },
  *detect(context) {
    const { decimalMode } = context.setup.dialect;
    if (decimalMode === "least-increment") {
      for (const slip of slipsOf(context).values()) {
        const { letter, written, value, span, count } = slip;
        const times = count === 1 ? "" : ` ${count} times, first here.`;
        yield single(
          "missing-point",
          "error",
          { in: "program", span },
          `${letter}${written} has no decimal point: this dialect reads it as ${sayLength(value, context)}, beside ${slip.beside}. Way out: ${letter}${written}. if ${written} ${context.system === "inch" ? "inch" : "mm"} is meant.${times}`,
          { count, data: { measured: Math.abs(value), limit: SMALL, unit: "mm" } },
        );
      }
    } else if (decimalMode === "calculator") {
      const mixed = mixedStyle(context);
      if (mixed !== null)
        yield single(
          "missing-point",
          "info",
          { in: "program", span: mixed.span },
          `${mixed.text} has no decimal point, and ${mixed.other} has one: read alike here, but on a control that counts increments it is a thousandth of it. Way out: a point in each length.`,
        );
    }
  },
};

/** mm */
const SMALL = 0.1;
const LARGER = 10;
/** mm and inches that one increment of a length is, by increment system. */
const STEP = { A: [0.01, 0.001], B: [0.001, 0.0001], C: [0.0001, 0.00001] } as const;

export interface Slip {
  readonly letter: string;
  readonly written: string;
  /** mm */
  readonly value: number;
  readonly beside: string;
  readonly span: Span;
  count: number;
}

interface Word {
  readonly letter: string;
  readonly item: number;
  readonly block: number;
  readonly value: number;
  readonly pointed: boolean;
}

const made = new WeakMap<CheckContext, ReadonlyMap<string, Slip>>();

/** The letters whose missing points stand out, each with its first place. */
export function slipsOf(context: CheckContext): ReadonlyMap<string, Slip> {
  let slips = made.get(context);
  if (slips === undefined) {
    slips = context.setup.dialect.decimalMode === "least-increment" ? find(context) : new Map();
    made.set(context, slips);
  }
  return slips;
}

function find(context: CheckContext): Map<string, Slip> {
  const inch = context.system === "inch";
  const step = STEP[context.setup.dialect.incrementSystem][inch ? 1 : 0];
  const unit = inch ? 25.4 : 1;
  const slips = new Map<string, Slip>();
  const pointed = new Map<string, number>();
  for (const words of lengths(context))
    for (const { letter, value, pointed: has } of words)
      if (has) pointed.set(letter, Math.min(pointed.get(letter) ?? Number.POSITIVE_INFINITY, Math.abs(value)));
  for (const words of lengths(context)) {
    for (const word of words) {
      if (word.pointed) continue;
      const value = word.value * step;
      if (Math.abs(value) * unit >= SMALL) continue;
      const beside = words.filter((other) => other.pointed);
      const least = Math.min(
        pointed.get(word.letter) ?? Number.POSITIVE_INFINITY,
        ...beside.map(({ value: v }) => Math.abs(v)),
      );
      if (!Number.isFinite(least) || least <= LARGER * Math.abs(value)) continue;
      const known = slips.get(word.letter);
      if (known !== undefined) {
        known.count++;
        continue;
      }
      const [next] = beside;
      slips.set(word.letter, {
        letter: word.letter,
        written: textOf(context, word).slice(1).trim(),
        value: value * unit,
        beside: next === undefined ? `${word.letter} words with a point` : textOf(context, next),
        span: spanOf(context, word),
        count: 1,
      });
    }
  }
  return slips;
}

/** Whole numbers with and without a point: the first without one. */
function mixedStyle(
  context: CheckContext,
): { readonly span: Span; readonly text: string; readonly other: string } | null {
  let bare: Word | null = null;
  let other: Word | null = null;
  for (const words of lengths(context)) {
    for (const word of words) {
      if (!Number.isInteger(word.value)) continue;
      if (word.pointed) other ??= word;
      else bare ??= word;
    }
    if (bare !== null && other !== null)
      return { span: spanOf(context, bare), text: textOf(context, bare), other: textOf(context, other) };
  }
  return null;
}

/** The lengths of each block that ran, zeros left out. */
function* lengths(context: CheckContext): Generator<readonly Word[]> {
  const { execution, setup } = context;
  const { blocks } = execution;
  // K counts, A, B and C are angles.
  const letters = new Set([...setup.dialect.decimalAddresses].filter((letter) => !"ABCK".includes(letter)));
  if (setup.dialect.qUnit === "micrometre") letters.delete("Q");
  for (let line = 0; line < blocks.count; line++) {
    const block = blocks.blockAt(line);
    if (execution.stepOf(block) < 0) continue;
    const words: Word[] = [];
    const first = blocks.firstItem(block);
    for (let item = first; item < first + blocks.itemCount(block); item++) {
      const kind = blocks.kind(item);
      if (kind < 65 || kind > 90) continue;
      // Times, angles, factors, offsets and arguments are no lengths of a move.
      const other = kind === LETTER_G ? NO_LENGTHS : kind === LETTER_M ? CALLS : null;
      if (other?.has(blocks.value(item))) {
        words.length = 0;
        break;
      }
      const letter = String.fromCharCode(kind);
      const form = blocks.form(item);
      const value = blocks.value(item);
      if (!letters.has(letter) || value === 0 || (form !== VALUE.integer && form !== VALUE.real)) continue;
      words.push({ letter, item, block, value, pointed: form === VALUE.real });
    }
    if (words.length > 0) yield words;
  }
}

const LETTER_G = 71;
const LETTER_M = 77;
const CALLS: ReadonlySet<number> = new Set([97, 98, 99]);
const NO_LENGTHS: ReadonlySet<number> = new Set([4, 10, 16, 51, 65, 66, 68]);

function spanOf({ execution: { blocks } }: CheckContext, { block, item }: Word): Span {
  return { block, start: blocks.start(item), end: blocks.end(item) };
}

function textOf(context: CheckContext, word: Word): string {
  const { start, end } = spanOf(context, word);
  return context.execution.blocks.textOf(word.block).slice(start, end);
}
