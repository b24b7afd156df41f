/** What the client at the other end can do, and what we ask of it: files and settings. */
import type { ClientCapabilities, Connection } from "vscode-languageserver";
import { FIND_SETUP, type FindSetupResult, READ_FILE, type ReadFileResult } from "../protocol.ts";
import type { FileAccess } from "./files.ts";
import type { ReviewSettings } from "./reviews.ts";
import { uriKey } from "./uris.ts";

export class Clients implements FileAccess, ReviewSettings {
  readonly #connection: Connection;
  #capabilities: ClientCapabilities = {};
  #wantsInForce = false;
  readonly #dialects = new Map<string, Promise<string>>();
  /** A client without our own messages refuses each of them: one word about it is enough. */
  #toldAboutFiles = false;

  constructor(connection: Connection) {
    this.#connection = connection;
  }

  learn(capabilities: ClientCapabilities, options: unknown): void {
    this.#capabilities = capabilities;
    this.#wantsInForce =
      typeof options === "object" && options !== null && "inForce" in options && options.inForce === true;
  }

  get wantsInForce(): boolean {
    return this.#wantsInForce;
  }

  /** Asks for findings itself, rather than having them pushed. */
  get pulls(): boolean {
    return this.#capabilities.textDocument?.diagnostic !== undefined;
  }
  get refreshes(): boolean {
    return this.#capabilities.workspace?.diagnostics?.refreshSupport === true;
  }
  get watches(): boolean {
    return this.#capabilities.workspace?.didChangeWatchedFiles?.dynamicRegistration === true;
  }
  get hasFolders(): boolean {
    return this.#capabilities.workspace?.workspaceFolders === true;
  }
  get configures(): boolean {
    return this.#capabilities.workspace?.didChangeConfiguration?.dynamicRegistration === true;
  }
  get readsMarkdown(): boolean {
    const formats = this.#capabilities.textDocument?.hover?.contentFormat;
    return formats === undefined || formats.includes("markdown");
  }
  get documentsInMarkdown(): boolean {
    const formats = this.#capabilities.textDocument?.completion?.completionItem?.documentationFormat;
    return formats === undefined || formats.includes("markdown");
  }
  /** Shows changes that need a confirmation before it makes them. */
  get confirmsEdits(): boolean {
    const edits = this.#capabilities.workspace?.workspaceEdit;
    return edits?.documentChanges === true && edits.changeAnnotationSupport !== undefined;
  }
  get takesCodeActions(): boolean {
    return this.#capabilities.textDocument?.codeAction?.codeActionLiteralSupport !== undefined;
  }
  get takesDisabledActions(): boolean {
    return this.#capabilities.textDocument?.codeAction?.disabledSupport === true;
  }
  get takesSnippets(): boolean {
    return this.#capabilities.textDocument?.completion?.completionItem?.snippetSupport === true;
  }

  async read(uri: string): Promise<string | null> {
    const answer = await this.#ask<ReadFileResult>(READ_FILE, uri);
    return typeof answer?.text === "string" ? answer.text : null;
  }

  async findSetup(uri: string): Promise<string | null> {
    const answer = await this.#ask<FindSetupResult>(FIND_SETUP, uri);
    return typeof answer?.uri === "string" ? answer.uri : null;
  }

  async #ask<T>(method: string, uri: string): Promise<T | null> {
    try {
      return await this.#connection.sendRequest<T | null>(method, { uri });
    } catch (cause) {
      if (!this.#toldAboutFiles) {
        this.#toldAboutFiles = true;
        const why = cause instanceof Error ? cause.message : String(cause);
        this.#connection.console.warn(
          `The editor does not hand out setup files (${method}: ${why}): programs are read without one.`,
        );
      }
      return null;
    }
  }

  /** `swarfline.dialect` for this file, asked once. */
  dialect(uri: string): Promise<string> {
    if (this.#capabilities.workspace?.configuration !== true) return Promise.resolve("");
    const key = uriKey(uri);
    let asked = this.#dialects.get(key);
    if (asked === undefined) {
      asked = this.#connection.workspace
        .getConfiguration({ scopeUri: uri, section: "swarfline.dialect" })
        .then((value: unknown) => (typeof value === "string" ? value.trim() : ""))
        .catch(() => "");
      this.#dialects.set(key, asked);
    }
    return asked;
  }

  forgetSettings(): void {
    this.#dialects.clear();
  }
}
