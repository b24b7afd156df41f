/** Reads a program and the files it depends on, and reviews it. The review itself does no I/O: it says what is missing. */
import { readBlocks } from "../../grammar/read.ts";
import { levelIn } from "../checks/family.ts";
import { unreadableFile } from "../checks/unreadable-file.ts";
import { review as reviewProgram } from "../review/review.ts";
import type { Review } from "../review/types.ts";
import { yamlFault } from "../setup/read/readable.ts";
import { resolveSetup } from "../setup/resolve.ts";
import type { Severity } from "../setup/types.ts";
import { decode, looksBinary } from "../text/decode.ts";
import { LineStore } from "../text/lines.ts";
import { findSetup } from "./discover.ts";
import type { Input } from "./inputs.ts";
import { type CliIo, UsageError } from "./io.ts";
import type { CommonOptions } from "./options.ts";
import { folderOf, referred, shown } from "./paths.ts";

/** Above this the program would not fit in memory as blocks. */
export const MAX_BYTES = 128 * 1024 * 1024;

/** A program that was read and reviewed. */
export interface Reviewed {
  readonly input: Input;
  readonly lines: LineStore;
  readonly review: Review;
  /** Every file that was read for it, by the name the review knows it under. */
  readonly sources: ReadonlyMap<string, string>;
}

/** A file that is no program: one sentence says why. */
export interface Refused {
  readonly input: Input;
  readonly refused: string;
  /** By the setup that would rule it. */
  readonly severity: Severity;
}

/** Reviews programs one after the other; files they share are read once. */
export class Loader {
  readonly #io: CliIo;
  readonly #options: CommonOptions;
  /** null: could not be read. */
  readonly #texts = new Map<string, string | null>();

  constructor(options: CommonOptions, io: CliIo) {
    this.#io = io;
    this.#options = options;
    if (options.setup !== null) {
      // What was asked for by name must be there; a discovered setup that is broken is a finding of the program.
      let text: string;
      try {
        text = decode(io.readFile(options.setup)).text;
      } catch (error) {
        throw new UsageError(`The setup ${shown(options.setup, io)} cannot be read: ${reason(error)}.`);
      }
      const fault = yamlFault(text);
      if (fault !== null) throw new UsageError(`The setup ${shown(options.setup, io)} cannot be read: ${fault}.`);
      this.#texts.set(options.setup, text);
    }
  }

  /** @throws {UsageError} when the file cannot be read at all */
  async load(input: Input): Promise<Reviewed | Refused> {
    const io = this.#io;
    if (!input.stdin && io.size(input.path) > MAX_BYTES) return this.#refuse(input, tooLarge(io.size(input.path)));
    let bytes: Uint8Array;
    try {
      bytes = input.stdin ? await io.readStdin() : io.readFile(input.path);
    } catch (error) {
      throw new UsageError(`${input.shown} cannot be read: ${reason(error)}.`);
    }
    if (bytes.length > MAX_BYTES) return this.#refuse(input, tooLarge(bytes.length));
    if (looksBinary(bytes)) {
      const why = "This is no text: it holds bytes that no program has. Give the program as the control reads it.";
      return this.#refuse(input, why);
    }
    return this.review(input, LineStore.from(decode(bytes).text));
  }

  #refuse(input: Input, refused: string): Refused {
    const setupFile = this.#options.setup ?? findSetup(input, this.#io);
    const text = setupFile === null ? null : this.#read(setupFile, input.path);
    const sources = new Map(setupFile === null || text === null ? [] : [[setupFile, text]]);
    const { setup } = resolveSetup({ program: input.path, sources, setupFile });
    return { input, refused, severity: levelIn(setup.severity, unreadableFile) ?? unreadableFile.severity };
  }

  review(input: Input, lines: LineStore): Reviewed {
    const setupFile = this.#options.setup ?? findSetup(input, this.#io);
    const blocks = readBlocks(lines);
    const sources = new Map<string, string>();
    const tried = new Set<string>();
    /** False when there was nothing new to try. What cannot be read stays missing; the review says so. */
    const fetchMissing = (missing: readonly string[]) => {
      const wanted = missing.filter((name) => !tried.has(name));
      for (const name of wanted) {
        tried.add(name);
        const text = this.#read(name, setupFile ?? input.path);
        if (text !== null) sources.set(name, text);
      }
      return wanted.length > 0;
    };
    const { dialect, before, from, deleteOn } = this.#options;
    const asked = { program: input.path, sources, setupFile, ...(dialect === null ? {} : { dialect }) };
    // The setup alone first: a large program is then executed once, with all its tool tables there.
    while (fetchMissing(resolveSetup(asked).missing)) {}
    for (;;) {
      const review = reviewProgram({
        ...asked,
        lines,
        blocks,
        ...(before === null ? {} : { before }),
        ...(from === null ? {} : { from }),
        ...(deleteOn ? { deleteOn } : {}),
      });
      if (!fetchMissing(review.missing)) return { input, lines, review, sources };
    }
  }

  #read(name: string, from: string): string | null {
    const path = referred(name, { windows: this.#io.windows, cwd: folderOf(from, this.#io) });
    let text = this.#texts.get(path);
    if (text === undefined) {
      try {
        text = decode(this.#io.readFile(path)).text;
      } catch {
        text = null;
      }
      this.#texts.set(path, text);
    }
    return text;
  }
}

function tooLarge(bytes: number): string {
  const mb = (n: number) => `${Math.round(n / 1024 / 1024)} MB`;
  return `This file has ${mb(bytes)}, more than the ${mb(MAX_BYTES)} that are read. Split the program.`;
}

/** The system's reason in words. */
export function reason(error: unknown): string {
  const code = error instanceof Error && "code" in error ? error.code : undefined;
  switch (code) {
    case "ENOENT":
      return "it is not there";
    case "ENOSPC":
      return "the disk is full";
    case "EROFS":
      return "the disk is read-only";
    case "EACCES":
    case "EPERM":
      return "access is denied";
    case "EISDIR":
      return "it is a folder, not a file";
    default:
      return error instanceof Error ? error.message.replace(/\.$/, "") : String(error);
  }
}
