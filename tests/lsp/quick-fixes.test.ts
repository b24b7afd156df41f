import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { type CodeAction, TextDocumentEdit, type TextEdit } from "vscode-languageserver-protocol";
import { type Bundle, bundleServer, Client, type ClientOptions } from "./client.ts";
import { PROGRAM, PROGRAM_URI, rangeOf, SETUP, SETUP_URI } from "./shop.ts";

let bundle: Bundle;
const clients: Client[] = [];

beforeAll(async () => {
  bundle = await bundleServer();
}, 60_000);
afterEach(async () => {
  for (const client of clients.splice(0)) await client.stop();
});
afterAll(() => bundle.remove());

const INCLINED = PROGRAM.replace("G98 G81", "(CUT ENTRY INCLINE 30 DEG)\nG98 G81").replace("R2.", "R12.");

async function opened(text: string, options: ClientOptions = { previews: true }): Promise<Client> {
  const client = await Client.start(bundle.file, {
    files: new Map([
      [
        SETUP_URI,
        SETUP.replace("torque: 12 }, { rpm: 1500, torque: 12", "torque: 99 }, { rpm: 1500, torque: 99").replace(
          "power: 2",
          "power: 20",
        ),
      ],
    ]),
    setup: SETUP_URI,
    ...options,
  });
  clients.push(client);
  await client.open(PROGRAM_URI, text);
  return client;
}

const FEED = rangeOf("F220.", INCLINED);

function edited(text: string, action: CodeAction | undefined): string {
  const lines = text.split("\n");
  const [change] = action?.edit?.documentChanges ?? [];
  if (!TextDocumentEdit.is(change)) throw new Error("no edit of a document");
  const edits = [...change.edits] as TextEdit[];
  for (const { range, newText } of edits) {
    expect(range.start.line).toBe(range.end.line);
    const line = lines[range.start.line] ?? "";
    lines[range.start.line] = line.slice(0, range.start.character) + newText + line.slice(range.end.character);
  }
  return lines.join("\n");
}

test("a split feed is offered at its finding, needs a confirmation, and leaves nothing to find", async () => {
  const client = await opened(INCLINED);
  const diagnostics = await client.findings(PROGRAM_URI);
  const finding = diagnostics.find(({ code }) => code === "interrupted-feed");
  expect(finding?.range).toEqual(FEED);
  const [action, ...more] = await client.actions(PROGRAM_URI, FEED, { diagnostics });
  expect(more).toEqual([]);
  expect(action?.kind).toBe("quickfix");
  expect(action?.diagnostics).toEqual([finding]);
  expect(action).not.toHaveProperty("isPreferred");
  const annotations = action?.edit?.changeAnnotations ?? {};
  expect(Object.values(annotations)).toMatchObject([{ needsConfirmation: true }]);
  expect(action?.edit?.changes).toBeUndefined();
  const [change] = action?.edit?.documentChanges ?? [];
  if (!TextDocumentEdit.is(change)) throw new Error("no edit of a document");
  expect(change.textDocument).toEqual({ uri: PROGRAM_URI, version: 1 });
  expect(change.edits).toHaveLength(3);
  for (const edit of change.edits) expect(annotations).toHaveProperty((edit as { annotationId: string }).annotationId);

  const text = edited(INCLINED, action);
  expect(text).toContain("G98 G0 X10. Y10.\nG0 Z12.\nG1 Z-8.6 F110.\nZ-30. F220.\nG0 Z50.\nG0 X40.\n");
  await client.edit(PROGRAM_URI, text);
  const left = await client.findings(PROGRAM_URI);
  expect(left.map(({ code }) => code)).not.toContain("interrupted-feed");
  const grave = (items: typeof left) => items.filter(({ severity }) => (severity ?? 1) <= 2).map(({ code }) => code);
  expect(grave(diagnostics)).toEqual(expect.arrayContaining(grave(left)));
  expect(
    await client.actions(PROGRAM_URI, { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } }),
  ).toEqual([]);
});

test("it is no part of what is fixed on saving, and stands nowhere else", async () => {
  const client = await opened(INCLINED);
  const diagnostics = await client.findings(PROGRAM_URI);
  for (const only of [["source.fixAll"], ["source"], ["refactor"]])
    expect(await client.actions(PROGRAM_URI, FEED, { diagnostics, only })).toEqual([]);
  expect(await client.actions(PROGRAM_URI, FEED, { diagnostics, only: ["quickfix"] })).toHaveLength(1);
  expect(await client.actions(PROGRAM_URI, rangeOf("T7", INCLINED), { diagnostics })).toEqual([]);
  expect(client.initialized?.capabilities.codeActionProvider).toEqual({ codeActionKinds: ["quickfix"] });
});

test("an editor that cannot show the edit first is offered none", async () => {
  const client = await opened(INCLINED, {});
  expect((await client.findings(PROGRAM_URI)).map(({ code }) => code)).toContain("interrupted-feed");
  expect(await client.actions(PROGRAM_URI, FEED)).toEqual([]);
});

test("where the feed cannot be split the action is off and says why", async () => {
  const pecked = INCLINED.replace("G81", "G83").replace("R12.", "R12. Q40.");
  const client = await opened(pecked);
  const [action] = await client.actions(PROGRAM_URI, rangeOf("F220.", pecked));
  expect(action?.edit).toBeUndefined();
  expect(action?.disabled?.reason).toContain("does not drill in one stroke");
});
