/** A real client library on the other end of the bundled server's stdio, with files in memory. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import {
  type CodeAction,
  type CodeActionContext,
  CodeActionRequest,
  type CompletionItem,
  CompletionRequest,
  createProtocolConnection,
  type Diagnostic,
  DidChangeTextDocumentNotification,
  DidCloseTextDocumentNotification,
  DidOpenTextDocumentNotification,
  type DocumentDiagnosticReport,
  DocumentDiagnosticRequest,
  ExitNotification,
  type Hover,
  HoverRequest,
  InitializedNotification,
  InitializeRequest,
  type InitializeResult,
  LogMessageNotification,
  type ProtocolConnection,
  PublishDiagnosticsNotification,
  type Range,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver-protocol/node";
import { FIND_SETUP, IN_FORCE, type InForceParams, READ_FILE } from "../../server/protocol.ts";

const root = join(import.meta.dirname, "..", "..");

export interface Bundle {
  readonly file: string;
  remove(): void;
}

/** The server as it ships: one CommonJS file, built from the sources as they are now. */
export async function bundleServer(): Promise<Bundle> {
  const folder = mkdtempSync(join(tmpdir(), "swarfline-lsp-"));
  const file = join(folder, "server.cjs");
  await build({
    entryPoints: [join(root, "server/editor/node.ts")],
    outfile: file,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    logLevel: "error",
  });
  return { file, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

export interface ClientOptions {
  /** Uri → text. */
  readonly files?: Map<string, string>;
  /** Setup of every program; null: none. */
  readonly setup?: string | null;
  readonly pulls?: boolean;
  readonly settings?: Readonly<Record<string, unknown>>;
  /** Hands out no files: an editor that knows nothing of our own messages. */
  readonly plain?: boolean;
  readonly hoverFormats?: ("markdown" | "plaintext")[];
  readonly inForce?: boolean;
  /** Shows edits before it makes them. */
  readonly previews?: boolean;
}

export class Client {
  readonly connection: ProtocolConnection;
  readonly process: ChildProcess;
  readonly logs: string[] = [];
  readonly inForce: InForceParams[] = [];
  readonly watched: string[] = [];
  readonly read: string[] = [];
  initialized: InitializeResult | undefined;
  setup: string | null;
  settings: Readonly<Record<string, unknown>>;
  #refreshes = 0;
  #refreshWaiters: (() => void)[] = [];
  readonly #pushes: { uri: string; items: Diagnostic[] }[] = [];
  #pushWaiters: (() => void)[] = [];
  readonly #versions = new Map<string, number>();

  private constructor(process: ChildProcess, connection: ProtocolConnection, options: ClientOptions) {
    this.process = process;
    this.connection = connection;
    this.setup = options.setup ?? null;
    this.settings = options.settings ?? {};
  }

  static async start(server: string, options: ClientOptions = {}): Promise<Client> {
    const child = spawn(process.execPath, [server, "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
    const connection = createProtocolConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    const client = new Client(child, connection, options);
    await client.#greet(options);
    return client;
  }

  async #greet(options: ClientOptions): Promise<void> {
    const { connection } = this;
    const files = options.files ?? new Map<string, string>();
    if (options.plain !== true) {
      connection.onRequest(FIND_SETUP, () => ({ uri: this.setup }));
      connection.onRequest(READ_FILE, ({ uri }: { uri: string }) => {
        this.read.push(uri);
        return { text: files.get(uri) ?? null };
      });
    }
    connection.onRequest("workspace/configuration", ({ items }: { items: { section: string }[] }) =>
      items.map(({ section }) => this.settings[section] ?? null),
    );
    connection.onRequest("client/registerCapability", (params: unknown) => {
      this.watched.push(...(JSON.stringify(params).match(/\*\*[^"]*/g) ?? []));
      return null;
    });
    connection.onRequest("workspace/diagnostic/refresh", () => {
      this.#refreshes++;
      for (const wake of this.#refreshWaiters.splice(0)) wake();
      return null;
    });
    connection.onNotification(LogMessageNotification.type, ({ message }) => {
      this.logs.push(message);
    });
    connection.onNotification(PublishDiagnosticsNotification.type, ({ uri, diagnostics }) => {
      this.#pushes.push({ uri, items: diagnostics });
      for (const wake of this.#pushWaiters.splice(0)) wake();
    });
    connection.onNotification(IN_FORCE, (params: InForceParams) => {
      this.inForce.push(params);
    });
    connection.listen();
    this.initialized = await connection.sendRequest(InitializeRequest.type, {
      processId: process.pid,
      rootUri: "file:///shop",
      ...(options.inForce === true ? { initializationOptions: { inForce: true } } : {}),
      capabilities: {
        textDocument: {
          ...(options.pulls === false ? {} : { diagnostic: {} }),
          hover: { contentFormat: options.hoverFormats ?? ["markdown", "plaintext"] },
          completion: { completionItem: { snippetSupport: true } },
          codeAction: {
            codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix"] } },
            disabledSupport: true,
          },
        },
        workspace: {
          ...(options.previews === true
            ? { workspaceEdit: { documentChanges: true, changeAnnotationSupport: { groupsOnLabel: true } } }
            : {}),
          configuration: true,
          didChangeWatchedFiles: { dynamicRegistration: true },
          didChangeConfiguration: { dynamicRegistration: true },
          diagnostics: { refreshSupport: true },
        },
      },
    });
    await connection.sendNotification(InitializedNotification.type, {});
  }

  async open(uri: string, text: string, languageId = "swarfline-nc"): Promise<void> {
    this.#versions.set(uri, 1);
    await this.connection.sendNotification(DidOpenTextDocumentNotification.type, {
      textDocument: { uri, languageId, version: 1, text },
    });
  }

  /** Without a range the text is replaced as a whole. */
  async edit(uri: string, text: string, range?: Range): Promise<void> {
    const version = (this.#versions.get(uri) ?? 1) + 1;
    this.#versions.set(uri, version);
    await this.connection.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri, version },
      contentChanges: [range === undefined ? { text } : { range, text }],
    });
  }

  async close(uri: string): Promise<void> {
    await this.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri } });
  }

  pull(uri: string, previousResultId?: string): Promise<DocumentDiagnosticReport> {
    return this.connection.sendRequest(DocumentDiagnosticRequest.type, {
      textDocument: { uri },
      ...(previousResultId === undefined ? {} : { previousResultId }),
    });
  }

  async findings(uri: string): Promise<Diagnostic[]> {
    const report = await this.pull(uri);
    return report.kind === "full" ? report.items : [];
  }

  hover(uri: string, line: number, character: number): Promise<Hover | null> {
    return this.connection.sendRequest(HoverRequest.type, { textDocument: { uri }, position: { line, character } });
  }

  async actions(uri: string, range: Range, context: CodeActionContext = { diagnostics: [] }): Promise<CodeAction[]> {
    const answer = await this.connection.sendRequest(CodeActionRequest.type, {
      textDocument: { uri },
      range,
      context,
    });
    return (answer ?? []).filter((action): action is CodeAction => !("command" in action));
  }

  async complete(uri: string, line: number, character: number): Promise<CompletionItem[]> {
    const answer = await this.connection.sendRequest(CompletionRequest.type, {
      textDocument: { uri },
      position: { line, character },
    });
    return Array.isArray(answer) ? answer : (answer?.items ?? []);
  }

  /** Waits until the server asked once more than it had when this was called. */
  refreshed(): Promise<void> {
    return new Promise((resolve) => this.#refreshWaiters.push(resolve));
  }

  get refreshes(): number {
    return this.#refreshes;
  }

  /** Waits for pushed findings of a document. */
  async pushed(uri: string, wanted: (items: Diagnostic[]) => boolean): Promise<Diagnostic[]> {
    for (;;) {
      const last = this.#pushes.findLast((push) => push.uri === uri);
      if (last !== undefined && wanted(last.items)) return last.items;
      await new Promise<void>((resolve) => this.#pushWaiters.push(resolve));
    }
  }

  /** Ends the server as the protocol says; gives its exit code. */
  async stop(): Promise<number | null> {
    const ended = new Promise<number | null>((resolve) => {
      if (this.process.exitCode !== null) resolve(this.process.exitCode);
      else this.process.once("exit", (code) => resolve(code));
    });
    await this.connection.sendRequest(ShutdownRequest.type);
    await this.connection.sendNotification(ExitNotification.type);
    const code = await ended;
    this.connection.dispose();
    return code;
  }
}
