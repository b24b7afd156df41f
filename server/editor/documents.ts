/**
 * The open documents, each on the line store: an edit touches the lines it changed and nothing else. Every position that
 * a client sends is clamped by the store; nothing here trusts one.
 */
import type { LiveBlocks, ReadBlocks } from "../../grammar/blocks.ts";
import { MAX_LIVE_LINES } from "../review/large.ts";
import { LineStore } from "../text/lines.ts";
import { isSetupFile, uriKey } from "./uris.ts";

export type DocumentKind = "program" | "setup" | "other";

export interface OpenDocument {
  readonly uri: string;
  readonly key: string;
  readonly kind: DocumentKind;
  /** The client's number, handed back with pushed findings. */
  version: number;
  /** Our own count of changes: a client may repeat or skip numbers. */
  revision: number;
  lines: LineStore;
  /** Only programs that are not too large for live checks have blocks. */
  blocks: LiveBlocks | null;
  /** The whole text, joined once per revision and only when somebody asks. */
  text(): string;
}

/** A change as the protocol sends it: without a range it replaces everything. */
export interface ContentChange {
  readonly range?: {
    readonly start: { readonly line: number; readonly character: number };
    readonly end: { readonly line: number; readonly character: number };
  };
  readonly text: string;
}

export class Documents {
  readonly #open = new Map<string, OpenDocument>();
  readonly #readBlocks: ReadBlocks;

  constructor(readBlocks: ReadBlocks) {
    this.#readBlocks = readBlocks;
  }

  get(uri: string): OpenDocument | undefined {
    return this.#open.get(uriKey(uri));
  }

  all(): Iterable<OpenDocument> {
    return this.#open.values();
  }

  open(uri: string, languageId: string, version: number, text: string): OpenDocument {
    const document = createDocument(uri, kindOf(uri, languageId), version);
    this.#replace(document, text);
    this.#open.set(document.key, document);
    return document;
  }

  close(uri: string): OpenDocument | undefined {
    const document = this.get(uri);
    if (document !== undefined) this.#open.delete(document.key);
    return document;
  }

  change(document: OpenDocument, version: number, changes: readonly ContentChange[]): void {
    document.version = version;
    document.revision++;
    for (const change of changes) {
      if (typeof change?.text !== "string") continue;
      if (change.range === undefined) {
        this.#replace(document, change.text);
        continue;
      }
      const { start, end } = change.range;
      const lines = document.lines.edit({
        startLine: start.line,
        startColumn: start.character,
        endLine: end.line,
        endColumn: end.character,
        text: change.text,
      });
      if (document.kind !== "program") continue;
      if (document.lines.count > MAX_LIVE_LINES) document.blocks = null;
      else if (document.blocks === null) document.blocks = this.#readBlocks(document.lines);
      else document.blocks.update(lines);
    }
  }

  #replace(document: OpenDocument, text: string): void {
    document.lines = LineStore.from(text);
    const live = document.kind === "program" && document.lines.count <= MAX_LIVE_LINES;
    document.blocks = live ? this.#readBlocks(document.lines) : null;
  }
}

function kindOf(uri: string, languageId: string): DocumentKind {
  if (isSetupFile(uri)) return "setup";
  return languageId === "csv" || uri.toLowerCase().endsWith(".csv") ? "other" : "program";
}

function createDocument(uri: string, kind: DocumentKind, version: number): OpenDocument {
  let joined = "";
  let joinedAt = -1;
  const document: OpenDocument = {
    uri,
    key: uriKey(uri),
    kind,
    version,
    revision: 0,
    lines: LineStore.from(""),
    blocks: null,
    text() {
      if (joinedAt !== document.revision) {
        joined = document.lines.text();
        joinedAt = document.revision;
      }
      return joined;
    },
  };
  return document;
}
