/**
 * The review of each open program: made when somebody asks, kept until the program or a file it depends on changes.
 * The review itself is synchronous and names the files it misses; here they are fetched and it is called again.
 */
import type { Review, ReviewInput, ReviewProgram } from "../review/types.ts";
import { resolveSetup } from "../setup/resolve.ts";
import type { OpenDocument } from "./documents.ts";
import type { Files } from "./files.ts";
import { uriKey } from "./uris.ts";

/** A setup names tool tables, and nothing names further files: more rounds than this mean that it never settles. */
const MAX_ROUNDS = 12;

interface Kept {
  readonly review: Review;
  readonly revision: number;
  readonly settings: string;
}

export interface ReviewSettings {
  /** Dialect of a program that no setup covers; empty: the default one. */
  dialect(uri: string): Promise<string>;
}

export class Reviews {
  readonly #review: ReviewProgram;
  readonly #files: Files;
  readonly #settings: ReviewSettings;
  readonly #kept = new WeakMap<OpenDocument, Kept>();
  /** Files each program asked for, as it spelled them. */
  readonly #needs = new WeakMap<OpenDocument, Set<string>>();
  /** The last sources handed to each program; the same map again as long as no text in it changed. */
  readonly #sources = new WeakMap<OpenDocument, ReadonlyMap<string, string>>();

  constructor(review: ReviewProgram, files: Files, settings: ReviewSettings) {
    this.#review = review;
    this.#files = files;
    this.#settings = settings;
  }

  /** null: not a program, or too large for live checks. */
  async of(document: OpenDocument): Promise<Review | null> {
    for (let round = 0; round < MAX_ROUNDS; round++) {
      if (document.blocks === null) return null;
      let setupFile = this.#files.setupNow(document.uri);
      if (setupFile === undefined) {
        await this.#files.loadSetup(document.uri);
        setupFile = this.#files.setupNow(document.uri);
        if (setupFile === undefined) continue;
      }
      if (setupFile !== null && this.#files.textNow(setupFile) === undefined) {
        await this.#files.load(setupFile);
        continue;
      }
      // The setup alone first: a large program is then executed once, with all its tool tables there.
      if (setupFile !== null && !this.#kept.has(document) && (await this.#loadTables(document, setupFile))) continue;
      const dialect = setupFile === null ? await this.#settings.dialect(document.uri) : "";
      const review = this.#now(document, setupFile, dialect);
      if (review === null) return null;
      const unread = review.missing.filter((uri) => this.#files.textNow(uri) === undefined);
      const unseen = review.missing.filter(
        (uri) => typeof this.#files.textNow(uri) === "string" && !review.input.sources.has(uri),
      );
      const needs = this.#needsOf(document);
      for (const uri of review.missing) needs.add(uri);
      if (unread.length === 0 && unseen.length === 0) return review;
      await Promise.all(unread.map((uri) => this.#files.load(uri)));
    }
    return this.#kept.get(document)?.review ?? null;
  }

  /** Whether a change of this file can change what is said of the program. */
  dependsOn(document: OpenDocument, uri: string): boolean {
    const key = uriKey(uri);
    for (const need of this.#needs.get(document) ?? []) if (uriKey(need) === key) return true;
    return false;
  }

  /** @returns whether a file was fetched that the setup names */
  async #loadTables(document: OpenDocument, setupFile: string): Promise<boolean> {
    const needs = this.#needsOf(document).add(setupFile);
    const sources = this.#sourcesOf(document);
    const { missing } = resolveSetup({ program: document.uri, sources, setupFile });
    for (const uri of missing) needs.add(uri);
    const unread = missing.filter((uri) => this.#files.textNow(uri) === undefined);
    await Promise.all(unread.map((uri) => this.#files.load(uri)));
    return unread.length > 0;
  }

  #needsOf(document: OpenDocument): Set<string> {
    let needs = this.#needs.get(document);
    if (needs === undefined) {
      needs = new Set();
      this.#needs.set(document, needs);
    }
    return needs;
  }

  #now(document: OpenDocument, setupFile: string | null, dialect: string): Review | null {
    const blocks = document.blocks;
    if (blocks === null) return null;
    if (setupFile !== null) this.#needsOf(document).add(setupFile);
    const sources = this.#sourcesOf(document);
    const settings = `${setupFile ?? ""}\n${dialect}`;
    const kept = this.#kept.get(document);
    if (kept !== undefined && kept.revision === document.revision && kept.settings === settings) {
      if (kept.review.input.sources === sources) return kept.review;
    }
    const input: { -readonly [K in keyof ReviewInput]: ReviewInput[K] } = {
      program: document.uri,
      lines: document.lines,
      blocks,
      sources,
      setupFile,
    };
    if (dialect !== "") input.dialect = dialect;
    // A text replaced as a whole has new blocks: nothing of the old review fits them.
    if (kept !== undefined && kept.review.input.blocks === blocks) input.previous = kept.review;
    const review = this.#review(input);
    // The review keeps its input: with the link left in, every keystroke would keep all reviews before it alive.
    delete input.previous;
    this.#kept.set(document, { review, revision: document.revision, settings });
    return review;
  }

  #sourcesOf(document: OpenDocument): ReadonlyMap<string, string> {
    const last = this.#sources.get(document);
    const next = new Map<string, string>();
    for (const uri of this.#needsOf(document)) {
      const text = this.#files.textNow(uri);
      if (typeof text === "string") next.set(uri, text);
    }
    if (last !== undefined && last.size === next.size && [...next].every(([uri, text]) => last.get(uri) === text)) {
      return last;
    }
    this.#sources.set(document, next);
    return next;
  }
}
