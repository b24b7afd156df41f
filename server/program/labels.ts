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
  /** `o100` → the structured statements of that name, in order. */
  readonly #structured = new Map<
    string,
    { readonly block: number; readonly line: number; readonly keyword: string }[]
  >();
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
  }

  #read(first: number, end: number): void {
    const blocks = this.#blocks;
    let open: Opened[] = [];
    let program: ProgramLabel | null = null;
    const closeLoops = (): void => {
      for (const loop of open) this.#fault(loop.block, "no-end", `DO${loop.label} has no END${loop.label}`);
      open = [];
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

  #open(open: Opened[], { label }: Loop, block: number): void {
    if (!(label >= 1 && label <= 3))
      this.#fault(block, "do-label", `DO${label}: a loop's number is 1, 2 or 3. Way out: DO1 with END1`);
    else if (open.some((loop) => loop.label === label))
      this.#fault(
        block,
        "do-nested",
        `DO${label} stands inside DO${label}. Way out: another number for the inner loop`,
      );
    open.push({ block, label });
  }

  #close(open: Opened[], label: number, block: number, line: number): void {
    let at = open.length - 1;
    while (at >= 0 && open[at]?.label !== label) at--;
    const loop = open[at];
    if (loop === undefined) {
      this.#fault(block, "no-do", `END${label} has no DO${label} before it. Way out: DO${label} where the loop begins`);
      return;
    }
    if (at !== open.length - 1) {
      const inner = open[open.length - 1];
      this.#fault(
        block,
        "crossing",
        `END${label} closes a loop while DO${inner?.label} inside it is still open: loops must not cross. Way out: END${inner?.label} first`,
      );
    }
    open.splice(at);
    this.#ends.set(loop.block, block);
    this.#begins.set(block, loop.block);
    this.#loops.push({ from: this.#blocks.lineOf(loop.block), to: line });
  }

  #name(statement: Structured, block: number, line: number): void {
    const name = statement.name.toLowerCase();
    const list = this.#structured.get(name);
    const entry = { block, line, keyword: statement.keyword };
    if (list === undefined) this.#structured.set(name, [entry]);
    else list.push(entry);
    if (statement.keyword === "sub" && !this.#subs.has(name)) this.#subs.set(name, block);
  }

  #fault(block: number, cause: string, text: string): void {
    this.faults.push({ span: itemsSpan(this.#blocks, block), cause, text });
  }

  /** The lines that one program takes up: from its O line to the next, or to the end of its file. */
  extent(line: number): readonly [first: number, end: number] {
    let first = 0;
    let end = Number.POSITIVE_INFINITY;
    for (const program of this.programs) {
      if (program.line <= line) {
        first = program.line;
        end = program.end;
      } else {
        end = Math.min(end, program.line);
        break;
      }
    }
    return [first, end];
  }

  /** Block with this N, searched forward from a line and then from the program's beginning; −1 none. */
  sequence(n: number, line: number): number {
    const lines = this.#sequences.get(n);
    if (lines === undefined) return -1;
    const [first, end] = this.extent(line);
    let wrapped = -1;
    for (const at of lines) {
      if (at < first || at >= end) continue;
      if (at > line) return this.#blocks.blockAt(at);
      if (wrapped < 0) wrapped = at;
    }
    return wrapped < 0 ? -1 : this.#blocks.blockAt(wrapped);
  }

  /** How many blocks of the same program have this N. */
  countOf(n: number, line: number): number {
    const [first, end] = this.extent(line);
    return (this.#sequences.get(n) ?? []).filter((at) => at >= first && at < end).length;
  }

  /** The O line of a program; −1 none. The first of two with one number counts. */
  program(number: number): number {
    return this.programs.find((each) => each.number === number)?.block ?? -1;
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
    return this.#loops.some((loop) => to > loop.from && to <= loop.to && !(from >= loop.from && from <= loop.to));
  }

  /** The next statement of a structured name behind (or, backwards, before) a line with one of these keywords; −1 none. */
  partner(name: string, line: number, keywords: readonly string[], backwards = false): number {
    const list = this.#structured.get(name.toLowerCase()) ?? [];
    if (!backwards) return list.find((each) => each.line > line && keywords.includes(each.keyword))?.block ?? -1;
    for (let i = list.length - 1; i >= 0; i--) {
      const each = list[i];
      if (each !== undefined && each.line < line && keywords.includes(each.keyword)) return each.block;
    }
    return -1;
  }

  /** Every lookup that a run made, answered anew: an execution may go on from another only where all answers hold. */
  answer(question: string): number {
    const [what, ...rest] = question.split("|");
    const [a, b, c] = rest;
    const line = this.#blocks.lineOf(Number(b));
    if (what === "N") return this.sequence(Number(a), line);
    if (what === "programs") return this.programs.filter((each) => each.number === Number(a)).length;
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
