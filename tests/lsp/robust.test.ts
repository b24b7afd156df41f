import fc from "fast-check";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Bundle, bundleServer, Client } from "./client.ts";
import { PROGRAM, PROGRAM_URI, placeOf, SETUP, SETUP_URI } from "./shop.ts";

let bundle: Bundle;
let client: Client;

beforeAll(async () => {
  bundle = await bundleServer();
  client = await Client.start(bundle.file, { files: new Map([[SETUP_URI, SETUP]]), setup: SETUP_URI });
}, 60_000);
afterAll(async () => {
  expect(await client.stop()).toBe(0);
  bundle.remove();
});

/** The server is alive and well: it reviews a program it has not seen. */
async function stillWorks(): Promise<void> {
  const uri = `file:///shop/parts/probe-${++probes}.nc`;
  await client.open(uri, PROGRAM);
  const items = await client.findings(uri);
  expect(items.map((item) => item.code)).toContain("spindle-power");
  const at = placeOf("S2200");
  expect(await client.hover(uri, at.line, at.character)).not.toBeNull();
  await client.close(uri);
}
let probes = 0;

const junk = fc.oneof(
  fc.constant(null),
  fc.integer(),
  fc.string(),
  fc.constant({}),
  fc.constant([]),
  fc.constant({ textDocument: null }),
  fc.constant({ textDocument: {} }),
  fc.constant({ textDocument: { uri: 7 } }),
  fc.constant({ textDocument: { uri: PROGRAM_URI }, position: "here" }),
  fc.constant({ textDocument: { uri: PROGRAM_URI }, contentChanges: [null, 3, { range: {}, text: "x" }] }),
  fc.constant({ textDocument: { uri: PROGRAM_URI, text: 3, version: "x" } }),
  fc.constant({ changes: [null] }),
);
const requests = ["textDocument/diagnostic", "textDocument/hover", "textDocument/completion", "swarfline/none", ""];
const notifications = [
  "textDocument/didOpen",
  "textDocument/didChange",
  "textDocument/didClose",
  "workspace/didChangeWatchedFiles",
  "swarfline/fileChanged",
  "no/such",
];

test("messages of any form break nothing", async () => {
  await client.open(PROGRAM_URI, PROGRAM);
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...requests),
      fc.constantFrom(...notifications),
      junk,
      async (ask, tell, params) => {
        await client.connection.sendNotification(tell, params);
        // An answer or a refusal, but never silence.
        await client.connection.sendRequest(ask, params).catch(() => undefined);
      },
    ),
    { numRuns: 150 },
  );
  await stillWorks();
});

const anywhere = fc.oneof(
  fc.integer({ min: -5, max: 40 }),
  fc.constantFrom(-1, 2 ** 31, 1e300, 0.5, null, "x") as fc.Arbitrary<number>,
);

test("hovers and completions anywhere, also outside the text, give an answer inside it or none", async () => {
  await client.open(PROGRAM_URI, PROGRAM);
  await client.open(SETUP_URI, SETUP, "yaml");
  const lines = PROGRAM.split("\n");
  await fc.assert(
    fc.asyncProperty(anywhere, anywhere, async (line, character) => {
      const hover = await client.hover(PROGRAM_URI, line, character);
      if (hover?.range !== undefined) {
        const length = lines[hover.range.start.line]?.length ?? -1;
        expect(hover.range.end.character).toBeLessThanOrEqual(length);
        expect(hover.range.start.line).toBe(line);
      }
      await client.hover(SETUP_URI, line, character);
      await client.complete(SETUP_URI, line, character);
    }),
    { numRuns: 150 },
  );
  await client.close(SETUP_URI);
  await stillWorks();
});

test("text that is no program gives findings inside it and no failure", async () => {
  const uri = "file:///shop/parts/noise.nc";
  const logged = client.logs.length;
  await fc.assert(
    fc.asyncProperty(fc.string({ unit: "binary", maxLength: 200 }), async (text) => {
      await client.open(uri, text);
      const lines = text.split(/\r\n|\r|\n/);
      for (const { range, code } of await client.findings(uri)) {
        expect(code).not.toBe("internal");
        expect(range.start.line).toBeLessThan(lines.length);
        expect(range.end.character).toBeLessThanOrEqual(lines[range.end.line]?.length ?? -1);
        expect(range.start.character).toBeLessThanOrEqual(range.end.character);
      }
      await client.close(uri);
    }),
    { numRuns: 100 },
  );
  // No feature failed over it: a guard would have said so in the log.
  expect(client.logs.slice(logged)).toEqual([]);
});

interface Edit {
  startLine: number;
  startColumn: number;
  lines: number;
  endColumn: number;
  text: string;
}

const edit: fc.Arbitrary<Edit> = fc.record({
  startLine: fc.integer({ min: 0, max: 20 }),
  startColumn: fc.integer({ min: 0, max: 45 }),
  lines: fc.integer({ min: 0, max: 2 }),
  endColumn: fc.integer({ min: 0, max: 45 }),
  text: fc.constantFrom(
    "",
    " ",
    "\n",
    "F50.",
    "S800",
    "M8",
    "G80\n",
    "(CUT ENTRY INCLINE 30 DEG)\n",
    "Z-40.",
    "/",
    "T7 M6\n",
    "G91",
    "1",
    ".",
  ),
});

/** Edits that once gave other findings than a fresh opening. */
const TOLD_APART: Edit[] = [
  { startLine: 13, startColumn: 3, lines: 1, endColumn: 1, text: "T7 M6\n" },
  { startLine: 0, startColumn: 20, lines: 0, endColumn: 1, text: "" },
  { startLine: 15, startColumn: 0, lines: 0, endColumn: 0, text: "" },
];

test("after any edits the findings are those of a fresh opening of the same text", async () => {
  let run = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 8 }), async (edits) => {
      const uri = `file:///shop/parts/edited-${++run}.nc`;
      let text = PROGRAM;
      await client.open(uri, text);
      await client.findings(uri);
      for (const e of edits) {
        const start = { line: e.startLine, character: e.startColumn };
        const end = { line: e.startLine + e.lines, character: e.endColumn };
        text = applied(text, start, end, e.text);
        await client.edit(uri, e.text, { start, end });
        // Every other time an edit lands on a review that has not seen the one before.
        if (e.startColumn % 2 === 0) await client.findings(uri);
      }
      const edited = await client.findings(uri);
      expect(edited.map((item) => item.code)).not.toContain("internal");
      await client.close(uri);
      await client.open(uri, text);
      expect(edited).toEqual(await client.findings(uri));
      await client.close(uri);
    }),
    { numRuns: 150, examples: [[TOLD_APART]] },
  );
}, 60_000);

type Position = { line: number; character: number };

/** The edit as the protocol describes it, by plain text, independent of the line store. */
function applied(text: string, start: Position, end: Position, insert: string): string {
  const offset = ({ line, character }: Position): number => {
    const lines = text.split("\n");
    if (line >= lines.length) return text.length;
    const before = lines.slice(0, line).reduce((sum, l) => sum + l.length + 1, 0);
    return before + Math.min(character, lines[line]?.length ?? 0);
  };
  const [a, b] = [offset(start), offset(end)];
  return text.slice(0, Math.min(a, b)) + insert + text.slice(Math.max(a, b));
}
