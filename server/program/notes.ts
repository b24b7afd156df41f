/** Cut notes and the setup's `entries:`: what a hole's entry and exit look like, and which of the two says so. */
import { type Blocks, ITEM } from "../../grammar/blocks.ts";
import { readCutNote } from "../../grammar/cut-notes.ts";
import type { CutNote, EntryForm } from "../../grammar/entry.ts";
import type { EntryDeclaration, ResolvedSetup } from "../setup/types.ts";
import type { Span } from "../text/place.ts";
import type { Run } from "./run.ts";
import type { HoleShape, NoteScope } from "./types.ts";

type Entry = NonNullable<HoleShape["entry"]>;
type Exit = NonNullable<HoleShape["exit"]>;

export interface NotedEntry {
  /** Equal ids are equal entries and exits, in any execution of the same blocks. */
  readonly id: string;
  readonly entry: Entry | null;
  readonly exit: Exit | null;
}

export interface FoundNote {
  readonly note: CutNote;
  readonly span: Span;
  /** The block has words: the note is for it alone. */
  readonly withWords: boolean;
}

/** All cut notes of a program, in order. */
export function findNotes(blocks: Blocks, commented: readonly number[], mmPerUnit: number): readonly FoundNote[] {
  const found: FoundNote[] = [];
  for (const block of commented) {
    const first = blocks.firstItem(block);
    const count = blocks.itemCount(block);
    let text: string | null = null;
    let withWords = false;
    for (let item = first; item < first + count; item++) {
      const kind = blocks.kind(item);
      if (kind >= 65 && kind <= 90 && kind !== 78) withWords = true;
    }
    for (let item = first; item < first + count; item++) {
      const kind = blocks.kind(item);
      if (kind !== ITEM.comment && kind !== ITEM.lineComment) continue;
      text ??= blocks.textOf(block);
      const inside = insideOf(text.slice(blocks.start(item), blocks.end(item)));
      const note = readCutNote(inside, mmPerUnit);
      if (note === null || "problem" in note) continue;
      found.push({ note, span: { block, start: blocks.start(item), end: blocks.end(item) }, withWords });
    }
  }
  return found;
}

/** What a comment says, without its parentheses or its semicolon. */
export function insideOf(comment: string): string {
  if (comment.startsWith(";")) return comment.slice(1);
  return comment.endsWith(")") ? comment.slice(1, -1) : comment.slice(1);
}

const NEAR = 0.01;

interface InForce {
  entry: Entry | null;
  exit: Exit | null;
}

/** Notes on blocks of their own, and which of them has ruled a hole. */
interface OfOperation extends InForce {
  entryUsed: boolean;
  exitUsed: boolean;
}

const ofNone = (): OfOperation => ({ entry: null, exit: null, entryUsed: false, exitUsed: false });

/** The notes in force at some place of a run. */
export interface NotedMark {
  readonly found: ReadonlySet<EntryDeclaration>;
  readonly program: InForce;
  readonly operation: OfOperation;
  readonly block: number;
  readonly blockNote: InForce;
}

export class Noted {
  readonly #byBlock: ReadonlyMap<number, readonly FoundNote[]>;
  readonly #entries: readonly EntryDeclaration[];
  /** Entries that found a hole. */
  #found = new Set<EntryDeclaration>();
  #program: InForce = { entry: null, exit: null };
  #operation: OfOperation = ofNone();
  #block = -1;
  #blockNote: InForce = { entry: null, exit: null };
  readonly #made = new Map<string, NotedEntry>();
  #declared = new Map<EntryDeclaration, { entry: Entry; exit: Exit | null }>();
  /** Rises when the notes in force change. */
  version = 0;

  constructor(notes: readonly FoundNote[], entries: readonly EntryDeclaration[]) {
    const byBlock = new Map<number, FoundNote[]>();
    for (const note of notes) {
      if (note.note.kind !== "entry" && note.note.kind !== "exit") continue;
      const list = byBlock.get(note.span.block);
      if (list === undefined) byBlock.set(note.span.block, [note]);
      else list.push(note);
    }
    this.#byBlock = byBlock;
    this.#entries = entries;
  }

  /** Entries are declared by place: holes must be asked for one by one. */
  get byPlace(): boolean {
    return this.#entries.length > 0;
  }

  /** A note stands in this block and is for it alone. */
  ownBlock(block: number): boolean {
    return this.#block === block;
  }

  /** The run has come to a block with comments. */
  reach(run: Run, block: number): void {
    const notes = this.#byBlock.get(block);
    if (notes === undefined) return;
    run.record?.longHand.commit(run);
    this.version++;
    for (const { note, span, withWords } of notes) {
      if (note.kind !== "entry" && note.kind !== "exit") continue;
      const beforeTools = (run.record?.operations.rows.length ?? 0) === 0;
      if (withWords && this.#block !== block) {
        this.#block = block;
        this.#blockNote = { entry: null, exit: null };
      }
      const into = withWords ? this.#blockNote : beforeTools ? this.#program : this.#operation;
      const scope: NoteScope = withWords ? "block" : beforeTools ? "program" : "operation";
      if (note.kind === "entry") {
        into.entry = { form: note.form, from: "note", span, path: null, scope };
        if (into === this.#operation) this.#operation.entryUsed = false;
      } else {
        into.exit = { form: note.form, span, path: null, scope };
        if (into === this.#operation) this.#operation.exitUsed = false;
      }
    }
  }

  /**
   * The tool is changed, a cycle is cancelled, or the first block of a cycle comes after holes without one: notes on
   * blocks of their own end where a hole has used them; one that no hole has used yet waits for the next run.
   */
  runEnds(): void {
    const op = this.#operation;
    if (!op.entryUsed && !op.exitUsed) return;
    if (op.entryUsed) op.entry = null;
    if (op.exitUsed) op.exit = null;
    op.entryUsed = false;
    op.exitUsed = false;
    this.version++;
  }

  /** What rules a hole: its block's note, the setup's entry, the operation's note, the program's. */
  at(tool: number | null, wcs: string, u: number, v: number, block: number): NotedEntry | null {
    const own = block === this.#block ? this.#blockNote : null;
    const declared = this.#entries.length === 0 ? null : this.#declaredAt(tool, wcs, u, v);
    const op = this.#operation;
    op.entryUsed = op.entry !== null;
    op.exitUsed = op.exit !== null;
    const entry = own?.entry ?? declared?.entry ?? op.entry ?? this.#program.entry;
    const exit = own?.exit ?? declared?.exit ?? op.exit ?? this.#program.exit;
    if (entry === null && exit === null) return null;
    const id = `${sourceOf(entry)}:${sourceOf(exit)}`;
    let noted = this.#made.get(id);
    if (noted === undefined) {
      noted = { id, entry, exit };
      this.#made.set(id, noted);
    }
    return noted;
  }

  #declaredAt(tool: number | null, wcs: string, u: number, v: number): { entry: Entry; exit: Exit | null } | null {
    let best: EntryDeclaration | null = null;
    for (const each of this.#entries) {
      if (each.tool !== null && each.tool !== tool) continue;
      if (each.wcs !== null && each.wcs !== wcs) continue;
      if (each.at !== null) {
        if (!(Math.hypot(each.at[0] - u, each.at[1] - v) <= NEAR)) continue;
      } else if (each.region !== null) {
        const { x, y } = each.region;
        if (!(u >= x[0] - NEAR && u <= x[1] + NEAR && v >= y[0] - NEAR && v <= y[1] + NEAR)) continue;
      }
      this.#found.add(each);
      // A place is more exact than a region, a region than the whole tool.
      if (best === null || rank(each) > rank(best)) best = each;
    }
    if (best === null) return null;
    let made = this.#declared.get(best);
    if (made === undefined) {
      const form: EntryForm = best.form;
      made = {
        entry: { form, from: "entry", span: null, path: best.path },
        exit: best.exit === null ? null : { form: best.exit, span: null, path: best.path },
      };
      this.#declared.set(best, made);
    }
    return made;
  }

  lost(): readonly string[] {
    return this.#entries.filter((each) => !this.#found.has(each)).map((each) => each.path);
  }

  /** What is in force now, to go on from it later. */
  mark(): NotedMark {
    return {
      found: new Set(this.#found),
      program: { ...this.#program },
      operation: { ...this.#operation },
      block: this.#block,
      blockNote: { ...this.#blockNote },
    };
  }

  standsAs(mark: NotedMark): boolean {
    const { entryUsed, exitUsed } = this.#operation;
    if (entryUsed !== mark.operation.entryUsed || exitUsed !== mark.operation.exitUsed) return false;
    if (this.#found.size !== mark.found.size) return false;
    for (const each of mark.found) if (!this.#found.has(each)) return false;
    // A block's own note is over when the block is.
    return sameNotes(this.#program, mark.program) && sameNotes(this.#operation, mark.operation);
  }

  restore(mark: NotedMark): void {
    this.#found = new Set(mark.found);
    this.#program = { ...mark.program };
    this.#operation = { ...mark.operation };
    this.#block = mark.block;
    this.#blockNote = { ...mark.blockNote };
    this.version++;
  }
}

/** Where an entry or exit is written: block ids and places in the setup name it for as long as it is the same. */
function sourceOf(of: Entry | Exit | null): string {
  if (of === null) return "";
  return of.span === null ? (of.path ?? "?") : `${of.span.block}.${of.span.start}`;
}

function sameNotes(a: InForce, b: InForce): boolean {
  return sourceOf(a.entry) === sourceOf(b.entry) && sourceOf(a.exit) === sourceOf(b.exit);
}

function rank(entry: EntryDeclaration): number {
  return entry.at !== null ? 2 : entry.region !== null ? 1 : 0;
}

/** Entries of the setup that are for this program: the path as declared is the end of the program's path. */
export function entriesOf(setup: ResolvedSetup, program: string): readonly EntryDeclaration[] {
  const path = plainPath(program);
  const own = (setup.workpiece?.entries ?? []).filter((entry) => {
    const wanted = plainPath(entry.program).replace(/^\.\//, "");
    return path === wanted || path.endsWith(`/${wanted}`);
  });
  return setup.dialect.diameterX ? own.map(radial) : own;
}

/** The entry with X as inside: half of what is written where X is a diameter. */
function radial(entry: EntryDeclaration): EntryDeclaration {
  const { at, region } = entry;
  return {
    ...entry,
    at: at === null ? null : [at[0] / 2, at[1]],
    region: region === null ? null : { ...region, x: [region.x[0] / 2, region.x[1] / 2] },
  };
}

function plainPath(path: string): string {
  let text = path;
  try {
    text = decodeURIComponent(path);
  } catch {
    // A stray percent sign: the path stands as it is.
  }
  return text.replaceAll("\\", "/").toLowerCase();
}
