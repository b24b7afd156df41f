/**
 * Files that a review needs beside the program. The server reads no disk: it asks the client, so that any scheme and an
 * untrusted workspace work alike. An open document, saved or not, wins over what the client would read.
 */
import { isSetupFile, uriKey } from "./uris.ts";

export interface FileAccess {
  /** null: there is no such file, or it cannot be read. */
  read(uri: string): Promise<string | null>;
  /** The nearest `swarfline.yaml` upward from a program, or null. */
  findSetup(uri: string): Promise<string | null>;
}

/** The open documents, as far as files care. */
export interface OpenTexts {
  get(uri: string): { text(): string } | undefined;
}

export class Files {
  readonly #access: FileAccess;
  readonly #documents: OpenTexts;
  /** Key → text as read; null where it cannot be read. */
  readonly #texts = new Map<string, string | null>();
  /** Key of a program → its setup. */
  readonly #setups = new Map<string, string | null>();
  /** What is being asked for. A file that changes meanwhile is dropped from here, and its late answer is not kept. */
  readonly #reading = new Map<string, Promise<void>>();
  readonly #finding = new Map<string, Promise<void>>();

  constructor(access: FileAccess, documents: OpenTexts) {
    this.#access = access;
    this.#documents = documents;
  }

  /** The text without asking anybody; undefined: not read yet. */
  textNow(uri: string): string | null | undefined {
    return this.#documents.get(uri)?.text() ?? this.#texts.get(uriKey(uri));
  }

  load(uri: string): Promise<void> {
    if (this.textNow(uri) !== undefined) return Promise.resolve();
    return once(this.#reading, this.#texts, uriKey(uri), () => this.#access.read(uri));
  }

  /** The setup of a program without asking anybody; undefined: not asked yet. */
  setupNow(program: string): string | null | undefined {
    return this.#setups.get(uriKey(program));
  }

  loadSetup(program: string): Promise<void> {
    if (this.setupNow(program) !== undefined) return Promise.resolve();
    return once(this.#finding, this.#setups, uriKey(program), () => this.#access.findSetup(program));
  }

  /** A file changed, appeared or went away. */
  forget(uri: string): void {
    const key = uriKey(uri);
    this.#texts.delete(key);
    this.#reading.delete(key);
    // A new or deleted setup file changes which one is the nearest, for any program.
    if (isSetupFile(uri)) this.forgetSetups();
  }

  forgetSetups(): void {
    this.#setups.clear();
    this.#finding.clear();
  }

  /** A closed program needs no setup any more. */
  forgetProgram(program: string): void {
    this.#setups.delete(uriKey(program));
  }
}

/** Asks for a value once, however many wait for it. */
function once(
  asking: Map<string, Promise<void>>,
  values: Map<string, string | null>,
  key: string,
  ask: () => Promise<string | null>,
): Promise<void> {
  const running = asking.get(key);
  if (running !== undefined) return running;
  const started: Promise<void> = ask().then(
    (value) => {
      if (asking.get(key) !== started) return;
      asking.delete(key);
      values.set(key, value);
    },
    () => {
      if (asking.get(key) !== started) return;
      asking.delete(key);
      values.set(key, null);
    },
  );
  asking.set(key, started);
  return started;
}
