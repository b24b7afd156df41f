/** As much of the editor's interface as the client's own logic touches, over files in memory. */
import { URI } from "vscode-uri";

type Listener<T> = (value: T) => void;

export interface FakeDocument {
  uri: URI;
  languageId: string;
  isClosed: boolean;
  getText(): string;
}

export class FakeEditor {
  readonly files = new Map<string, Uint8Array | "folder">();
  readonly documents: FakeDocument[] = [];
  readonly messages: string[] = [];
  readonly settings = new Map<string, unknown>();
  folders: string[] = [];
  tabs: { input: unknown }[] = [];
  readonly statusItems: { text: string; detail: string; command: unknown }[] = [];
  active: FakeDocument | undefined;
  readonly #activated = new Set<Listener<unknown>>();
  readonly #opened = new Set<Listener<FakeDocument>>();
  readonly #changed = new Set<Listener<{ document: FakeDocument }>>();
  readonly #closed = new Set<Listener<FakeDocument>>();
  readonly #configured = new Set<Listener<{ affectsConfiguration(name: string): boolean }>>();
  readonly #tabs = new Set<Listener<{ opened: unknown[]; changed: unknown[]; closed: unknown[] }>>();

  write(uri: string, text: string | Uint8Array): void {
    this.files.set(URI.parse(uri).toString(), typeof text === "string" ? new TextEncoder().encode(text) : text);
  }

  document(uri: string, languageId: string, text = ""): FakeDocument {
    const document: FakeDocument = { uri: URI.parse(uri), languageId, isClosed: false, getText: () => text };
    this.documents.push(document);
    return document;
  }

  open(document: FakeDocument): void {
    for (const listener of this.#opened) listener(document);
  }
  change(document: FakeDocument): void {
    for (const listener of this.#changed) listener({ document });
  }
  configure(name: string, value: unknown): void {
    this.settings.set(name, value);
    for (const listener of this.#configured) listener({ affectsConfiguration: (asked) => asked === name });
  }
  activate(document: FakeDocument | undefined): void {
    this.active = document;
    for (const listener of this.#activated) listener(document);
  }
  showTab(tab: { input: unknown }, how: "opened" | "changed" = "opened"): void {
    this.tabs.push(tab);
    for (const listener of this.#tabs) listener({ opened: [], changed: [], closed: [], [how]: [tab] });
  }

  /** The module `vscode`. */
  module() {
    const on =
      <T>(listeners: Set<Listener<T>>) =>
      (listener: Listener<T>) => {
        listeners.add(listener);
        return { dispose: () => listeners.delete(listener) };
      };
    const editor = this;
    const Disposable = {
      from: (...all: { dispose(): void }[]) => ({
        dispose: () => {
          for (const one of all) one.dispose();
        },
      }),
    };
    return {
      Uri: URI,
      Disposable,
      FileType: { File: 1, Directory: 2 },
      TabInputText: FakeTabInput,
      workspace: {
        get textDocuments() {
          return editor.documents;
        },
        fs: {
          async stat(uri: URI) {
            const found = editor.files.get(uri.toString());
            if (found === undefined) throw new Error("no such file");
            return { type: found === "folder" ? 2 : 1, size: found.length };
          },
          async readFile(uri: URI) {
            const found = editor.files.get(uri.toString());
            if (found === undefined || found === "folder") throw new Error("no such file");
            return found;
          },
        },
        getWorkspaceFolder(uri: URI) {
          const text = uri.toString();
          const folder = editor.folders.filter((f) => text.startsWith(`${f}/`)).sort((a, b) => b.length - a.length)[0];
          return folder === undefined ? undefined : { uri: URI.parse(folder) };
        },
        getConfiguration: (section: string) => ({
          get: (key: string) => editor.settings.get(`${section}.${key}`),
        }),
        onDidOpenTextDocument: on(this.#opened),
        onDidChangeTextDocument: on(this.#changed),
        onDidCloseTextDocument: on(this.#closed),
        onDidChangeConfiguration: on(this.#configured),
      },
      languages: {
        createLanguageStatusItem: () => {
          const item = { text: "", detail: "", command: undefined, dispose: () => undefined };
          editor.statusItems.push(item);
          return item;
        },
        /** Globs as far as the tests use them: `**`, `*` and plain characters, held against the whole path. */
        match({ pattern }: { pattern: string }, document: FakeDocument) {
          const escaped = pattern.replace(/[.+^${}()|[\]\\?]/g, "\\$&");
          const regex = escaped.replace(/\*\*\/|\*\*|\*/g, (star) =>
            star === "**/" ? "(.*/)?" : star === "**" ? ".*" : "[^/]*",
          );
          return new RegExp(`^/?${regex}$`).test(document.uri.path) ? 10 : 0;
        },
        async setTextDocumentLanguage(document: FakeDocument, language: string) {
          document.languageId = language;
          return document;
        },
      },
      window: {
        get activeTextEditor() {
          return editor.active === undefined ? undefined : { document: editor.active };
        },
        onDidChangeActiveTextEditor: on(this.#activated),
        tabGroups: {
          get all() {
            return [{ tabs: editor.tabs }];
          },
          onDidChangeTabs: on(this.#tabs),
        },
        async showInformationMessage(message: string) {
          editor.messages.push(message);
        },
      },
    };
  }
}

export class FakeTabInput {
  readonly uri: URI;
  constructor(uri: string) {
    this.uri = URI.parse(uri);
  }
}
