/**
 * Tools from the program's own comments, where no tool table is declared: `(T5 31MM DRILL)`, `(T04 DIA .650)`,
 * `(10.2 DRILL T3)`, `T6 M6 (1/2 DRILL)`. Everything read so is marked assumed; what can be read two ways is not read.
 */
import { type Blocks, ITEM, VALUE } from "../../grammar/blocks.ts";
import type { Tool } from "../setup/types.ts";
import type { Span } from "../text/place.ts";
import type { UnitSystem } from "../units/quantities.ts";
import { insideOf } from "./notes.ts";
import { readToolComment, type ToolWords, toolsApart } from "./tool-words.ts";

export interface CommentTool {
  readonly tool: Tool;
  readonly span: Span;
}

/** A comment that names a tool, with the number it is for. */
export interface ToolMention {
  readonly T: number;
  readonly words: ToolWords;
  readonly span: Span;
}

/** Comments are read anew at every keystroke and hardly ever change. */
const read = new Map<string, ToolWords | null>();
const MOST_READ = 5000;

function readOnce(comment: string, units: UnitSystem | null, called: number | null): ToolWords | null {
  const key = `${units ?? ""}|${called ?? ""}|${comment}`;
  let words = read.get(key);
  if (words === undefined) {
    if (read.size >= MOST_READ) read.clear();
    words = readToolComment(comment, units, called);
    read.set(key, words);
  }
  return words;
}

/**
 * The comments that name tools, in the order of the program.
 * @param turret T holds tool and offset: T0303 is tool 3
 */
export function* toolMentions(
  blocks: Blocks,
  commented: Iterable<number>,
  units: UnitSystem | null,
  turret = false,
): Generator<ToolMention> {
  for (const block of commented) {
    const first = blocks.firstItem(block);
    const count = blocks.itemCount(block);
    const text = blocks.textOf(block);
    for (let item = first; item < first + count; item++) {
      const kind = blocks.kind(item);
      if (kind !== ITEM.comment && kind !== ITEM.lineComment) continue;
      const start = blocks.start(item);
      const end = blocks.end(item);
      const inside = insideOf(text.slice(start, end));
      if (/^\s*CUT\b/i.test(inside)) continue;
      // Only a plain D is read otherwise where it is the number of the tool that is called there.
      const called = PLAIN_D.test(inside) ? calledAt(blocks, block) : null;
      for (const one of toolsApart(inside)) {
        const words = readOnce(one, units, called);
        if (words === null) continue;
        const written = words.T ?? calledAt(blocks, block);
        const T = turret && written !== null && written >= 100 ? Math.floor(written / 100) : written;
        if (T !== null && T !== 0) yield { T, words, span: { block, start, end } };
      }
    }
  }
}

/** Tools that the comments of a program name, by T. */
export function commentTools(
  blocks: Blocks,
  commented: readonly number[],
  units: UnitSystem | null,
  turret = false,
): ReadonlyMap<number, CommentTool> {
  const found = new Map<number, CommentTool | null>();
  for (const { T, words, span } of toolMentions(blocks, commented, units, turret)) {
    const known = found.get(T);
    if (known === undefined) found.set(T, { tool: asTool(T, words), span });
    // Two comments that differ: neither is taken.
    else if (known !== null && Math.abs(known.tool.DC - words.DC) > 0.01) found.set(T, null);
  }
  const tools = new Map<number, CommentTool>();
  for (const [T, each] of found) if (each !== null) tools.set(T, each);
  return tools;
}

const PLAIN_D = /\bD ?\d/i;

function calledAt(blocks: Blocks, block: number): number | null {
  return toolOfBlock(blocks, block) ?? neighbour(blocks, block);
}

function toolOfBlock(blocks: Blocks, block: number): number | null {
  const first = blocks.firstItem(block);
  const end = first + blocks.itemCount(block);
  for (let item = first; item < end; item++) {
    if (blocks.kind(item) !== 84) continue;
    const form = blocks.form(item);
    if (form === VALUE.integer || form === VALUE.real) return Math.round(blocks.value(item));
  }
  return null;
}

/** A comment on a line of its own names the tool of the line after it, else of the line before it. */
function neighbour(blocks: Blocks, block: number): number | null {
  const line = blocks.lineOf(block);
  for (const step of [1, -1]) {
    const other = line + step;
    if (other < 0 || other >= blocks.count) continue;
    const T = toolOfBlock(blocks, blocks.blockAt(other));
    if (T !== null) return T;
  }
  return null;
}

function asTool(T: number, words: ToolWords): Tool {
  return {
    T,
    name: null,
    family: words.family,
    familyAssumed: true,
    DC: words.DC,
    SIG: words.SIG,
    LU: null,
    PL: null,
    NOF: null,
    ZEFP: null,
    KAPR: null,
    RPMX: null,
    hand: "right",
    edge: null,
    point: null,
    r1: null,
    coolant: words.through ? "through" : null,
    minPressure: null,
    minFlow: null,
    lead: words.lead,
    H: [],
    windows: [],
    entry: { maxIncline: null, light: null, medium: null, heavy: null, extreme: null, fMin: null },
    price: null,
    edges: null,
    holesPerEdge: null,
    observed: [],
    path: `comment.T${T}`,
    assumed: true,
  };
}
