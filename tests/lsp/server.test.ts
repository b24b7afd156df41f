import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { CancellationTokenSource, DocumentDiagnosticRequest, LSPErrorCodes } from "vscode-languageserver-protocol/node";
import { type Bundle, bundleServer, Client, type ClientOptions } from "./client.ts";
import { PROGRAM, PROGRAM_URI, placeOf, rangeOf, SETUP, SETUP_URI } from "./shop.ts";

let bundle: Bundle;
const clients: Client[] = [];

beforeAll(async () => {
  bundle = await bundleServer();
}, 60_000);
afterEach(async () => {
  for (const client of clients.splice(0)) await client.stop();
});
afterAll(() => bundle.remove());

async function start(options: ClientOptions = {}): Promise<Client> {
  const client = await Client.start(bundle.file, {
    files: new Map([[SETUP_URI, SETUP]]),
    setup: SETUP_URI,
    ...options,
  });
  clients.push(client);
  return client;
}

const codes = (items: readonly { code?: number | string | undefined }[]) => items.map((item) => item.code);

test("the server says what it can do and asks to watch setup files and tool tables", async () => {
  const client = await start();
  expect(client.initialized?.capabilities).toMatchObject({
    positionEncoding: "utf-16",
    textDocumentSync: { openClose: true, change: 2 },
    hoverProvider: true,
    diagnosticProvider: { interFileDependencies: true, workspaceDiagnostics: false },
  });
  await client.open(PROGRAM_URI, PROGRAM);
  await client.findings(PROGRAM_URI);
  expect(client.watched).toEqual(["**/swarfline.yaml", "**/*.swarfline.yaml", "**/*.csv"]);
});

test("over-power stands at the word that causes it and goes when F is lowered", async () => {
  const client = await start();
  await client.open(PROGRAM_URI, PROGRAM);
  const before = await client.findings(PROGRAM_URI);
  const power = before.find((item) => item.code === "spindle-power");
  expect(power?.range).toEqual(rangeOf("F220."));
  expect(power?.severity).toBe(1);
  expect(power?.source).toBe("swarfline");
  expect(power?.message).toMatch(/kW.*hp/s);
  await client.edit(PROGRAM_URI, "F25.", rangeOf("F220."));
  expect(codes(await client.findings(PROGRAM_URI))).not.toContain("spindle-power");
  await client.edit(PROGRAM_URI, PROGRAM);
  expect(await client.findings(PROGRAM_URI)).toEqual(before);
});

test("an unchanged answer is one word, and only for the answer the client holds", async () => {
  const client = await start();
  await client.open(PROGRAM_URI, PROGRAM);
  const first = await client.pull(PROGRAM_URI);
  expect(first.kind).toBe("full");
  expect(await client.pull(PROGRAM_URI, first.resultId)).toEqual({ kind: "unchanged", resultId: first.resultId });
  expect((await client.pull(PROGRAM_URI, "made up")).kind).toBe("full");
  await client.edit(PROGRAM_URI, "F25.", rangeOf("F220."));
  const lower = await client.pull(PROGRAM_URI, first.resultId);
  expect(lower.kind).toBe("full");
  expect(lower.resultId).not.toBe(first.resultId);
});

test("the setup is found, read once and not again on a keystroke", async () => {
  const client = await start();
  await client.open(PROGRAM_URI, PROGRAM);
  await client.findings(PROGRAM_URI);
  await client.edit(PROGRAM_URI, "F25.", rangeOf("F220."));
  await client.findings(PROGRAM_URI);
  expect(client.read).toEqual([SETUP_URI]);
});

test("an unsaved change of the setup refreshes the program; closing it brings the file's own text back", async () => {
  const client = await start();
  await client.open(PROGRAM_URI, PROGRAM);
  expect(codes(await client.findings(PROGRAM_URI))).toContain("spindle-power");
  let refreshed = client.refreshed();
  await client.open(SETUP_URI, SETUP, "yaml");
  await refreshed;
  refreshed = client.refreshed();
  await client.edit(SETUP_URI, SETUP.replace("power: 2 }", "power: 20 }").replaceAll("torque: 12", "torque: 120"));
  await refreshed;
  expect(codes(await client.findings(PROGRAM_URI))).not.toContain("spindle-power");
  refreshed = client.refreshed();
  await client.close(SETUP_URI);
  await refreshed;
  expect(codes(await client.findings(PROGRAM_URI))).toContain("spindle-power");
});

test("a setup changed on disk is read again", async () => {
  const files = new Map([[SETUP_URI, SETUP]]);
  const client = await start({ files });
  await client.open(PROGRAM_URI, PROGRAM);
  expect(codes(await client.findings(PROGRAM_URI))).toContain("spindle-power");
  files.set(SETUP_URI, `${SETUP}severity: { spindle-power: off }\n`);
  const refreshed = client.refreshed();
  await client.connection.sendNotification("workspace/didChangeWatchedFiles", {
    changes: [{ uri: SETUP_URI, type: 2 }],
  });
  await refreshed;
  expect(codes(await client.findings(PROGRAM_URI))).not.toContain("spindle-power");
});

test("a tool table named by the setup is fetched, and its change counts", async () => {
  const csv = (lu: number) => `T,family,DC,SIG,LU,ZEFP,coolant\n7,indexable,26,180,${lu},1,through\n`;
  const table = "file:///shop/tools/rack.csv";
  const setup = SETUP.replace(/ {4}- \{ T: 7[\s\S]*?\}\] \}\n/, "")
    .replace("  rack:\n", "")
    .replace("tools:\n", "")
    .replace("tools: rack", "tools: tools/rack.csv");
  const files = new Map([
    [SETUP_URI, setup],
    [table, csv(78)],
  ]);
  const client = await start({ files });
  await client.open(PROGRAM_URI, PROGRAM);
  const deep = codes(await client.findings(PROGRAM_URI));
  expect(client.read).toEqual([SETUP_URI, table]);
  files.set(table, csv(12));
  const refreshed = client.refreshed();
  await client.connection.sendNotification("swarfline/fileChanged", { uri: table });
  await refreshed;
  const short = codes(await client.findings(PROGRAM_URI));
  expect(short.filter((code) => !deep.includes(code))).toEqual(["reach"]);
});

test("a broken setup is told in its own document and seen from the program", async () => {
  const broken = SETUP.replace("maxRpm: 6000", "maxRpm: fast");
  const client = await start({ files: new Map([[SETUP_URI, broken]]) });
  await client.open(PROGRAM_URI, PROGRAM);
  const seen = (await client.findings(PROGRAM_URI)).find((item) => item.code === "setup");
  expect(seen?.message).toContain(`swarfline.yaml line ${placeOf("fast", broken).line + 1}:`);
  expect(seen?.relatedInformation?.[0]?.location.uri).toBe(SETUP_URI);
  await client.open(SETUP_URI, broken, "yaml");
  const own = await client.findings(SETUP_URI);
  expect(own.map((item) => item.range)).toContainEqual(rangeOf("fast", broken));
});

test("a setup or a tool table that cannot be read is said, not passed over", async () => {
  const table = "file:///shop/tools/none.csv";
  const files = new Map([[SETUP_URI, SETUP.replace("tools: rack", "tools: tools/none.csv")]]);
  const client = await start({ files });
  await client.open(PROGRAM_URI, PROGRAM);
  expect((await client.findings(PROGRAM_URI)).map((item) => item.message).join()).toMatch(/none\.csv cannot be read/);
  expect(client.read).toEqual([SETUP_URI, table]);
  files.clear();
  const refreshed = client.refreshed();
  await client.connection.sendNotification("workspace/didChangeWatchedFiles", {
    changes: [{ uri: SETUP_URI, type: 2 }],
  });
  await refreshed;
  expect((await client.findings(PROGRAM_URI)).map((item) => item.message).join()).toMatch(
    /swarfline\.yaml cannot be read/,
  );
});

test("the setup file has completion and hover of its own", async () => {
  const client = await start();
  await client.open(SETUP_URI, SETUP, "yaml");
  const at = placeOf("maxRpm", SETUP);
  const items = await client.complete(SETUP_URI, at.line, at.character);
  expect(items.map((item) => item.label)).toContain("shortTime");
  const hover = await client.hover(SETUP_URI, at.line, at.character + 2);
  expect(JSON.stringify(hover?.contents)).toMatch(/1\/min/);
  expect(hover?.range).toEqual(rangeOf("maxRpm", SETUP));
});

test("hovers show the arithmetic on the word itself", async () => {
  const client = await start();
  await client.open(PROGRAM_URI, PROGRAM);
  const at = placeOf("S2200");
  const hover = await client.hover(PROGRAM_URI, at.line, at.character + 1);
  expect(hover?.range).toEqual(rangeOf("S2200"));
  expect(JSON.stringify(hover?.contents)).toMatch(/m\/min.*ft\/min.*image\/svg\+xml/s);
  expect(await client.hover(PROGRAM_URI, 0, 0)).toBeNull();
});

test("a client that reads no Markdown gets plain words", async () => {
  const client = await start({ hoverFormats: ["plaintext"] });
  await client.open(PROGRAM_URI, PROGRAM);
  const at = placeOf("S2200");
  const hover = await client.hover(PROGRAM_URI, at.line, at.character + 1);
  expect(hover?.contents).toMatchObject({ kind: "plaintext" });
  expect(JSON.stringify(hover?.contents)).not.toMatch(/\*\*|base64/);
});

test("requests given up while they wait are answered at once, and the last one truly", async () => {
  const client = await start();
  const filler = "G0 X1. Y2.\n".repeat(20_000);
  const long = PROGRAM.replace("M30\n", `${filler}M30\n`);
  await client.open(PROGRAM_URI, long);
  const first = client.pull(PROGRAM_URI);
  const typing = Array.from({ length: 20 }, async (_, i) => {
    const source = new CancellationTokenSource();
    await client.edit(PROGRAM_URI, i % 2 === 0 ? "F25." : "F220.", {
      start: placeOf("F220."),
      end: { ...placeOf("F220."), character: placeOf("F220.").character + (i % 2 === 0 ? 5 : 4) },
    });
    const asked = client.connection.sendRequest(
      DocumentDiagnosticRequest.type,
      { textDocument: { uri: PROGRAM_URI } },
      source.token,
    );
    source.cancel();
    return await asked.then(
      () => "answered",
      (error: { code?: number }) => error.code,
    );
  });
  const ends = await Promise.all(typing);
  await first;
  expect(ends).toContain(LSPErrorCodes.RequestCancelled);
  expect(ends.every((end) => end === "answered" || end === LSPErrorCodes.RequestCancelled)).toBe(true);
  expect(codes(await client.findings(PROGRAM_URI))).toContain("spindle-power");
});

test("findings are pushed to a client that cannot pull, and taken back on closing", async () => {
  const client = await start({ pulls: false });
  expect(client.initialized?.capabilities.diagnosticProvider).toBeUndefined();
  await client.open(PROGRAM_URI, PROGRAM);
  await client.pushed(PROGRAM_URI, (items) => codes(items).includes("spindle-power"));
  await client.edit(PROGRAM_URI, "F25.", rangeOf("F220."));
  await client.pushed(PROGRAM_URI, (items) => !codes(items).includes("spindle-power"));
  await client.open(SETUP_URI, SETUP.replace("maxRpm: 6000", "maxRpm: fast"), "yaml");
  await client.pushed(PROGRAM_URI, (items) => codes(items).includes("setup"));
  await client.close(PROGRAM_URI);
  await client.pushed(PROGRAM_URI, (items) => items.length === 0);
});

test("an editor without our own messages still gets a review, and one word about the missing setup", async () => {
  const client = await start({ plain: true });
  await client.open(PROGRAM_URI, PROGRAM);
  const items = await client.findings(PROGRAM_URI);
  expect(codes(items)).not.toContain("spindle-power");
  await client.edit(PROGRAM_URI, "S", rangeOf("S2200"));
  expect((await client.findings(PROGRAM_URI)).length).toBeGreaterThan(0);
  expect(client.logs.filter((log) => log.includes("setup files"))).toHaveLength(1);
});

test("the dialect setting counts where no setup covers the program", async () => {
  // A bare G0 is a mode set to one dialect and an error to the other.
  const program = "%\nG20 G0\nM2\n%\n";
  const client = await start({ setup: null, settings: { "swarfline.dialect": "nist" } });
  await client.open(PROGRAM_URI, program);
  const strict = codes(await client.findings(PROGRAM_URI));
  client.settings = {};
  const refreshed = client.refreshed();
  await client.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
  await refreshed;
  const loose = codes(await client.findings(PROGRAM_URI));
  expect(strict).not.toEqual(loose);
});

test("a client that asks is told what a program is checked by, once and when it changes", async () => {
  const client = await start({ inForce: true });
  await client.open(PROGRAM_URI, PROGRAM);
  await client.findings(PROGRAM_URI);
  await client.edit(PROGRAM_URI, "F25.", rangeOf("F220."));
  await client.findings(PROGRAM_URI);
  const first = { uri: PROGRAM_URI, setup: SETUP_URI, dialect: "generic-mill", machine: "small", material: "42CrMo4" };
  expect(client.inForce).toEqual([first]);
  client.setup = null;
  const refreshed = client.refreshed();
  await client.connection.sendNotification("workspace/didChangeWatchedFiles", {
    changes: [{ uri: SETUP_URI, type: 3 }],
  });
  await refreshed;
  await client.findings(PROGRAM_URI);
  expect(client.inForce[1]).toEqual({ ...first, setup: null, machine: null, material: null });
  const silent = await start();
  await silent.open(PROGRAM_URI, PROGRAM);
  await silent.findings(PROGRAM_URI);
  expect(silent.inForce).toEqual([]);
});

test("a program of any scheme is read", async () => {
  const uri = "memfs+x://shop/parts/plate.nc";
  const setup = "memfs+x://shop/swarfline.yaml";
  const client = await start({ setup, files: new Map([[setup, SETUP]]) });
  await client.open(uri, PROGRAM);
  expect(codes(await client.findings(uri))).toContain("spindle-power");
});

test("a program too large for live checks says so once instead of staying silent", async () => {
  const client = await start();
  await client.open(PROGRAM_URI, "G1 X1.\n".repeat(300_001));
  const items = await client.findings(PROGRAM_URI);
  expect(codes(items)).toEqual(["too-large"]);
  expect(items[0]?.message).toMatch(/300002 lines.*swarfline check plate\.nc/s);
  expect(await client.hover(PROGRAM_URI, 0, 0)).toBeNull();
});

test("shutdown and exit end the process with 0, exit alone with 1", async () => {
  const first = await Client.start(bundle.file);
  expect(await first.stop()).toBe(0);
  const second = await Client.start(bundle.file);
  const ended = new Promise((resolve) => second.process.once("exit", resolve));
  await second.connection.sendNotification("exit");
  expect(await ended).toBe(1);
});

test("the server ends when its parent's end of the pipe does", async () => {
  const client = await Client.start(bundle.file);
  const ended = new Promise((resolve) => client.process.once("exit", resolve));
  client.process.stdin?.end();
  expect(await ended).toBe(1);
});
