import { spawn } from "node:child_process";
import { join } from "node:path";
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from "vscode-jsonrpc/node";
import { FIND_SETUP, READ_FILE } from "../../server/protocol.ts";
import { makeMixedProgram } from "./mixed.ts";
import { SETUP } from "./setup.ts";
import { quantile, type Row } from "./table.ts";

const server = join(import.meta.dirname, "..", "..", "dist", "server.js");
const uri = "file:///bench/mixed.nc";
const setupUri = "file:///bench/swarfline.yaml";

/** Edits before the measured ones: the engine compiles what runs often while somebody types the first words. */
const WARM_UP = 36;
const MEASURED = 150;

/** One character typed, until the findings are back over stdio; no debounce. Edits fall at start, middle and end. */
export async function benchKeystroke(sizes: readonly number[]): Promise<Row[]> {
  const rows: Row[] = [];
  for (const size of sizes) {
    const started = performance.now();
    const child = spawn(process.execPath, [server, "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
    const connection = createMessageConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    connection.onRequest(FIND_SETUP, () => ({ uri: setupUri }));
    connection.onRequest(READ_FILE, (p: { uri: string }) => ({ text: p.uri === setupUri ? SETUP : null }));
    connection.onRequest("client/registerCapability", () => null);
    connection.onRequest("workspace/diagnostic/refresh", () => null);
    connection.onRequest("workspace/configuration", (p: { items: unknown[] }) => p.items.map(() => null));
    connection.listen();
    await connection.sendRequest("initialize", {
      processId: process.pid,
      rootUri: "file:///bench",
      workspaceFolders: [{ uri: "file:///bench", name: "bench" }],
      capabilities: { textDocument: { diagnostic: {} }, workspace: { diagnostics: { refreshSupport: true } } },
    });
    const ready = performance.now() - started;
    connection.sendNotification("initialized", {});
    const text = makeMixedProgram(size);
    const lines = text.split("\n");
    const pull = () =>
      connection.sendRequest<{ items?: unknown[] }>("textDocument/diagnostic", { textDocument: { uri } });
    const opened = performance.now();
    connection.sendNotification("textDocument/didOpen", {
      textDocument: { uri, languageId: "swarfline-nc", version: 1, text },
    });
    let answer = await pull();
    const open = performance.now() - opened;
    let version = 1;
    const times: number[] = [];
    const places = [0.02, 0.5, 0.98];
    for (let i = 0; i < WARM_UP + MEASURED; i++) {
      let line = Math.floor(lines.length * (places[(i >> 1) % 3] ?? 0.5));
      while (!/F\d/.test(lines[line] ?? "") && line < lines.length - 1) line++;
      const column = (lines[line] ?? "").search(/F\d/) + 1;
      if (column === 0) continue;
      const typed = i % 2 === 1;
      const start = performance.now();
      connection.sendNotification("textDocument/didChange", {
        textDocument: { uri, version: ++version },
        contentChanges: [
          // A digit typed into F, and taken back by the next edit at the same place.
          typed
            ? { range: { start: { line, character: column }, end: { line, character: column + 1 } }, text: "" }
            : { range: { start: { line, character: column }, end: { line, character: column } }, text: "1" },
        ],
      });
      answer = await pull();
      if (i >= WARM_UP) times.push(performance.now() - start);
    }
    await connection.sendRequest("shutdown");
    connection.sendNotification("exit");
    connection.dispose();
    const middle = quantile(times, 0.5);
    rows.push({
      what: "keystroke to findings over stdio, median",
      size: `${size}`,
      now: `${middle.toFixed(1)} ms`,
      goal: size === 10_000 ? "20 ms" : "",
      beside: `open ${open.toFixed(0)} ms, initialize ${ready.toFixed(0)} ms, ${answer.items?.length ?? 0} findings`,
      ok: size !== 10_000 || middle <= 20,
    });
    rows.push({
      what: "keystroke to findings over stdio, p95",
      size: `${size}`,
      now: `${quantile(times, 0.95).toFixed(1)} ms`,
      goal: "",
      beside: "edits near the start, in the middle and near the end in turn",
      ok: true,
    });
  }
  return rows;
}
