/**
 * Where a jump or call can go: programs by O number, blocks by N number, loops and structured statements with their
 * partners. Read from the text as it stands, once, when the first jump asks for it.
 */
import { type Blocks, ITEM, VALUE } from "../../grammar/blocks.ts";
import type { Statement } from "../../grammar/expressions.ts";
import type { Span } from "../text/place.ts";
import { JoinedBlocks, type LibraryFile, lineRanges } from "./library.ts";
import { itemsSpan } from "./spans.ts";

const LETTER_N = 78;
/** N stands first, behind a block delete at most; further words are no labels worth a search of all items. */
const FIRST_ITEMS = 3;

export interface ProgramLabel {
  /** NaN where it has a name only. */
  readonly number: number;
  readonly block: number;
  readonly line: number;
  /** Line behind its last. */
  end: number;
}

/** A fault of the structure, told whether or not a run comes by it. */
export interface LabelFault {
  readonly span: Span;
  readonly cause: string;
  readonly text: string;
}

type Loop = Statement & { readonly kind: "while" | "do" };
type Structured = Statement & { readonly kind: "structured" };

interface Opened {
  readonly block: number;
  readonly label: number;
}

/** Loops that have begun and not ended. */
class OpenLoops {
  readonly all: Opened[] = [];
  /** Where those of a label stand in the list. */
  readonly #at = new Map<number, number[]>();

  push(loop: Opened): void {
    const known = this.#at.get(loop.label);
    if (known === undefined) this.#at.set(loop.label, [this.all.length]);
    else known.push(this.all.length);
    this.all.push(loop);
  }

  /** The last begun of a label; −1 none. */
  last(label: number): number {
    return this.#at.get(label)?.at(-1) ?? -1;
  }

  /** Leaves out this loop and all within it. */
  cut(at: number): void {
    for (const { label } of this.all.splice(at)) this.#at.get(label)?.pop();
  }
}

/** Labels of a program and of the files it calls. */
export function labelsOf(blocks: Blocks): Labels {
  return new Labels(blocks, lineRanges(blocks), blocks instanceof JoinedBlocks ? blocks.files : []);
}

export class Labels {
  readonly programs: ProgramLabel[] = [];
  readonly faults: LabelFault[] = [];
  readonly #blocks: Blocks;
  /** N number → its blocks' lines, in order. */
  readonly #sequences = new Map<number, number[]>();
  /** Block of WHILE or DO ↔ block of its END. */
  readonly #ends = new Map<number, number>();
  readonly #begins = new Map<number, number>();
  /** Loops as line ranges, to see a jump into one. */
  readonly #loops: { readonly from: number; readonly to: number }[] = [];
  #innermost: Int32Array | null = null;
  /** `o100` and a keyword → the lines of those statements, in order. */
  readonly #structured = new Map<string, number[]>();
  readonly #byNumber = new Map<number, { readonly block: number; count: number }>();
  readonly #subs = new Map<string, number>();

  constructor(
    blocks: Blocks,
    ranges: readonly (readonly [first: number, end: number])[],
    files: readonly LibraryFile[] = [],
  ) {
    this.#blocks = blocks;
    ranges.forEach(([first, end], i) => {
      const file = files[i - 1];
      const before = this.programs.length;
      this.#read(first, end);
      if (file === undefined || end <= first) return;
      // A file without an O number is the program it was looked for as.
      if (this.programs.slice(before).every((each) => each.number !== file.number))
        this.programs.splice(before, 0, { number: file.number, block: blocks.blockAt(first), line: first, end });
    });
    for (const { number, block } of this.programs) {
      const known = this.#byNumber.get(number);
      if (known === undefined) this.#byNumber.set(number, { block, count: 1 });
      else known.count++;
    }
  }

  #read(first: number, end: number): void {
    const blocks = this.#blocks;
    let open = new OpenLoops();
    let program: ProgramLabel | null = null;
    const closeLoops = (): void => {
      for (const loop of open.all) this.#fault(loop.block, "no-end", `DO${loop.label} has no END${loop.label}`);
      open = new OpenLoops();
    };
    for (let line = first; line < end; line++) {
      const block = blocks.blockAt(line);
      const from = blocks.firstItem(block);
      const count = blocks.itemCount(block);
      for (let item = from; item < from + count; item++) {
        const kind = blocks.kind(item);
        if (kind === LETTER_N && item < from + FIRST_ITEMS && blocks.form(item) === VALUE.integer) {
          const n = blocks.value(item);
          const known = this.#sequences.get(n);
          if (known === undefined) this.#sequences.set(n, [line]);
          else known.push(line);
        } else if (kind === ITEM.program) {
          closeLoops();
          if (program !== null) program.end = line;
          program = { number: blocks.value(item), block, line, end };
          this.programs.push(program);
        } else if (kind === ITEM.statement) {
          const statement = blocks.statement(item);
          if (statement === undefined) continue;
          if (statement.kind === "while" || statement.kind === "do") {
            this.#open(open, statement, block);
          } else if (statement.kind === "end") {
            this.#close(open, statement.label, block, line);
          } else if (statement.kind === "structured") {
            this.#name(statement, block, line);
          }
        }
      }
    }
    closeLoops();
  }

  #open(open: OpenLoops, { label }: Loop, block: number): void {
    if (!(label >= 1 && label <= 3))
      this.#fault(block, "do-label", `DO${label}: a loop's number is 1, 2 or 3. Way out: DO1 with END1`);
    else if (open.last(label) >= 0)
      this.#fault(
        block,
        "do-nested",
        `DO${label} stands inside DO${label}. Way out: another number for the inner loop`,
      );
    open.push({ block, label });
  }

  #close(open: OpenLoops, label: number, block: number, line: number): void {
    const at = open.last(label);
    const loop = open.all[at];
    if (loop === undefined) {
      this.#fault(block, "no-do", `END${label} has no DO${label} before it. Way out: DO${label} where the loop begins`);
      return;
    }
    if (at !== open.all.length - 1) {
      const inner = open.all[open.all.length - 1];
      this.#fault(
        block,
        "crossing",
        `END${label} closes a loop while DO${inner?.label} inside it is still open: loops must not cross. Way out: END${inner?.label} first`,
      );
    }
    open.cut(at);
    this.#ends.set(loop.block, block);
    this.#begins.set(block, loop.block);
    this.#loops.push({ from: this.#blocks.lineOf(loop.block), to: line });
  }

  #name(statement: Structured, block: number, line: number): void {
    const name = statement.name.toLowerCase();
    const key = structuredKey(name, statement.keyword);
    const list = this.#structured.get(key);
    if (list === undefined) this.#structured.set(key, [line]);
    else list.push(line);
    if (statement.keyword === "sub" && !this.#subs.has(name)) this.#subs.set(name, block);
  }

  #fault(block: number, cause: string, text: string): void {
    this.faults.push({ span: itemsSpan(this.#blocks, block), cause, text });
  }

  /** The lines that one program takes up: from its O line to the next, or to the end of its file. */
  extent(line: number): readonly [first: number, end: number] {
    const { programs } = this;
    const next = firstFrom(programs.length, (i) => (programs[i]?.line ?? 0) > line);
    const own = programs[next - 1];
    const behind = programs[next]?.line ?? Number.POSITIVE_INFINITY;
    return own === undefined ? [0, behind] : [own.line, Math.min(own.end, behind)];
  }

  /** Block with this N, searched forward from a line and then from the program's beginning; −1 none. */
  sequence(n: number, line: number): number {
    const lines = this.#sequences.get(n);
    if (lines === undefined) return -1;
    const [first, end] = this.extent(line);
    const ahead = lines[lineFrom(lines, Math.max(first, line + 1))] ?? end;
    if (ahead < end) return this.#blocks.blockAt(ahead);
    const wrapped = lines[lineFrom(lines, first)] ?? end;
    return wrapped < end ? this.#blocks.blockAt(wrapped) : -1;
  }

  /** How many blocks of the same program have this N. */
  countOf(n: number, line: number): number {
    const [first, end] = this.extent(line);
    const lines = this.#sequences.get(n) ?? [];
    return lineFrom(lines, end) - lineFrom(lines, first);
  }

  /** The O line of a program; −1 none. The first of two with one number counts. */
  program(number: number): number {
    return this.#byNumber.get(number)?.block ?? -1;
  }

  /** `sub` of a structured subprogram; −1 none. */
  sub(name: string): number {
    return this.#subs.get(name.toLowerCase()) ?? -1;
  }

  endOf(block: number): number {
    return this.#ends.get(block) ?? -1;
  }

  beginOf(block: number): number {
    return this.#begins.get(block) ?? -1;
  }

  /** Whether a jump goes into a loop that it does not come from. */
  entersLoop(from: number, to: number): boolean {
    // Loops do not cross: where any is entered, the innermost is.
    this.#innermost ??= innermost(this.#loops, this.#blocks.count);
    const loop = this.#loops[this.#innermost[to] ?? -1];
    return loop !== undefined && !(from >= loop.from && from <= loop.to);
  }

  /** The next statement of a structured name behind (or, backwards, before) a line with one of these keywords; −1 none. */
  partner(name: string, line: number, keywords: readonly string[], backwards = false): number {
    const own = name.toLowerCase();
    let nearest = backwards ? -1 : Number.POSITIVE_INFINITY;
    for (const keyword of keywords) {
      const lines = this.#structured.get(structuredKey(own, keyword)) ?? [];
      if (backwards) nearest = Math.max(nearest, lines[lineFrom(lines, line) - 1] ?? -1);
      else nearest = Math.min(nearest, lines[lineFrom(lines, line + 1)] ?? Number.POSITIVE_INFINITY);
    }
    return nearest < 0 || nearest === Number.POSITIVE_INFINITY ? -1 : this.#blocks.blockAt(nearest);
  }

  /** Every lookup that a run made, answered anew: an execution may go on from another only where all answers hold. */
  answer(question: string): number {
    const [what, ...rest] = question.split("|");
    const [a, b, c] = rest;
    const line = this.#blocks.lineOf(Number(b));
    if (what === "N") return this.sequence(Number(a), line);
    if (what === "programs") return this.#byNumber.get(Number(a))?.count ?? 0;
    if (what === "count") return this.countOf(Number(a), line);
    if (what === "enters") return this.entersLoop(this.#blocks.lineOf(Number(a)), line) ? 1 : 0;
    if (what === "O") return this.program(Number(a));
    if (what === "sub") return this.sub(a ?? "");
    if (what === "end") return this.endOf(Number(a));
    if (what === "do") return this.beginOf(Number(a));
    if (what === "o") return this.partner(a ?? "", line, (c ?? "").split(","), rest[3] === "back");
    return -1;
  }
}

/** No name of a statement has a bar in it. */
const structuredKey = (name: string, keyword: string): string => `${name}|${keyword}`;

/** The first of so many numbers from which on something holds. */
function firstFrom(count: number, holds: (i: number) => boolean): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (holds(mid)) high = mid;
    else low = mid + 1;
  }
  return low;
}

/** Where in a rising list the lines from this one on begin. */
function lineFrom(lines: readonly number[], line: number): number {
  return firstFrom(lines.length, (i) => (lines[i] ?? 0) >= line);
}

interface LoopLines {
  readonly from: number;
  readonly to: number;
}

/** By line: number of the innermost loop that it stands in, behind the loop's first line; −1 none. */
function innermost(loops: readonly LoopLines[], lines: number): Int32Array {
  const of = new Int32Array(lines).fill(-1);
  const order = loops.map((_, i) => i);
  const at = (i: number | undefined): LoopLines => loops[i ?? -1] ?? { from: -1, to: -1 };
  order.sort((a, b) => at(a).from - at(b).from || at(b).to - at(a).to);
  const open: number[] = [];
  let next = 0;
  for (let line = 0; line < lines; line++) {
    while (open.length > 0 && at(open[open.length - 1]).to < line) open.pop();
    of[line] = open[open.length - 1] ?? -1;
    for (; next < order.length && at(order[next]).from === line; next++) open.push(order[next] ?? 0);
  }
  return of;
}
