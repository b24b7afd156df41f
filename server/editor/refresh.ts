/**
 * Says findings anew when something beside the program changed. A client that pulls is asked to pull again, once for a
 * burst of changes; for one that does not, the findings are pushed.
 */
import type { Documents, OpenDocument } from "./documents.ts";
import { isSetupFile } from "./uris.ts";

/** ms. Typing in a setup file changes it several times a second; each refresh reviews every program in sight. */
const REST = 80;

export interface RefreshActions {
  readonly documents: Documents;
  push(document: OpenDocument): void;
  pulls(): boolean;
  refresh(): Promise<void>;
}

export class Refresher {
  readonly #actions: RefreshActions;
  readonly #waiting = new Set<OpenDocument>();
  #timer: ReturnType<typeof setTimeout> | null = null;

  constructor(actions: RefreshActions) {
    this.#actions = actions;
  }

  /** The document itself changed: a pulling client asks by itself. */
  edited(document: OpenDocument): void {
    if (!this.#actions.pulls()) this.#actions.push(document);
  }

  /** @param concerns whether a program reads the file */
  fileChanged(uri: string, concerns: (document: OpenDocument) => boolean): void {
    for (const document of this.#actions.documents.all()) {
      // A setup that appears or goes away may be the nearest one of any program.
      if (document.kind === "program" && (isSetupFile(uri) || concerns(document))) this.#later(document);
    }
  }

  everything(): void {
    for (const document of this.#actions.documents.all()) this.#later(document);
  }

  #later(document: OpenDocument): void {
    this.#waiting.add(document);
    this.#timer ??= setTimeout(() => {
      this.#timer = null;
      const waiting = [...this.#waiting];
      this.#waiting.clear();
      if (this.#actions.pulls()) this.#actions.refresh().catch(() => undefined);
      else for (const open of waiting) if (this.#actions.documents.get(open.uri) === open) this.#actions.push(open);
    }, REST);
  }
}
