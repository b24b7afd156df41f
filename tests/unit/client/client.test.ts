import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type * as vscode from "vscode";
import manifest from "../../../package.json" with { type: "json" };
import { FILE_CHANGED, FIND_SETUP, type InForceParams, READ_FILE } from "../../../server/protocol.ts";
import { type FakeDocument, FakeEditor, FakeTabInput } from "./fake-vscode.ts";

let editor: FakeEditor;

beforeEach(() => {
  editor = new FakeEditor();
  vi.resetModules();
  vi.doMock("vscode", () => editor.module());
});
afterEach(() => {
  vi.doUnmock("vscode");
  vi.useRealTimers();
});

const context = (): vscode.ExtensionContext => ({ subscriptions: [] }) as unknown as vscode.ExtensionContext;

/** The server's side of the file messages. */
async function served(synced: (document: FakeDocument) => boolean = () => false) {
  const { serveFiles } = await import("../../../client/files.ts");
  const handlers = new Map<string, (params: unknown) => Promise<unknown>>();
  const told: unknown[] = [];
  serveFiles(
    {
      onRequest: (method, handler) => {
        handlers.set(method, handler as (params: unknown) => Promise<unknown>);
        return { dispose: () => undefined };
      },
      sendNotification: async (method, params) => {
        told.push([method, params]);
      },
    },
    synced as unknown as (document: vscode.TextDocument) => boolean,
  );
  const ask = (method: string) => async (uri: string) => await handlers.get(method)?.({ uri });
  return { read: ask(READ_FILE), find: ask(FIND_SETUP), told };
}

test("the setup is the nearest one upward, no higher than the workspace folder", async () => {
  editor.folders = ["memfs://shop/work"];
  const { find } = await served();
  const program = "memfs://shop/work/parts/deep/a.nc";
  expect(await find(program)).toEqual({ uri: null });
  editor.write("memfs://shop/swarfline.yaml", "above the folder");
  expect(await find(program)).toEqual({ uri: null });
  editor.write("memfs://shop/work/swarfline.yaml", "");
  expect(await find(program)).toEqual({ uri: "memfs://shop/work/swarfline.yaml" });
  editor.files.set("memfs://shop/work/parts/deep/swarfline.yaml", "folder");
  editor.write("memfs://shop/work/parts/swarfline.yaml", "");
  expect(await find(program)).toEqual({ uri: "memfs://shop/work/parts/swarfline.yaml" });
});

test("outside every folder only the program's own folder is looked at", async () => {
  const { find } = await served();
  editor.write("file:///a/swarfline.yaml", "");
  expect(await find("file:///a/b/p.nc")).toEqual({ uri: null });
  expect(await find("file:///a/p.nc")).toEqual({ uri: "file:///a/swarfline.yaml" });
  expect(await find("untitled:Untitled-1")).toEqual({ uri: null });
});

test("an open document wins over the file; bytes that are no UTF-8 are Latin-1; no file is null", async () => {
  const { read } = await served();
  editor.write("file:///a.csv", "disk");
  expect(await read("file:///a.csv")).toEqual({ text: "disk" });
  editor.document("file:///a.csv", "csv", "unsaved");
  expect(await read("file:///a.csv")).toEqual({ text: "unsaved" });
  editor.write("file:///b.csv", Uint8Array.of(0x44, 0xd8));
  expect(await read("file:///b.csv")).toEqual({ text: "DØ" });
  expect(await read("file:///none.csv")).toEqual({ text: null });
});

test("the server hears of an edit to a file it has read, once for a burst, and of no other", async () => {
  vi.useFakeTimers();
  const setup = editor.document("file:///swarfline.yaml", "yaml");
  const table = editor.document("file:///a.csv", "csv");
  const other = editor.document("file:///b.csv", "csv");
  const { read, told } = await served((document) => document === setup);
  await read("file:///swarfline.yaml");
  await read("file:///a.csv");
  for (const document of [setup, table, other, table]) editor.change(document);
  await vi.runAllTimersAsync();
  expect(told).toEqual([[FILE_CHANGED, { uri: "file:///a.csv" }]]);
});

test.each([
  [".prg", "file:///x/a.prg", true],
  ["PRG", "file:///x/a.prg", true],
  [".prg", "file:///x/aprg", false],
  ["*.prg", "file:///x/y/a.prg", true],
  ["drill/**/*.txt", "file:///x/drill/y/a.txt", true],
  ["drill/**/*.txt", "file:///x/mill/a.txt", false],
  ["", "file:///x/a.txt", false],
])("association %j makes %s a program: %s", async (pattern, uri, expected) => {
  editor.settings.set("swarfline.associations", [7, pattern]);
  const { adoptPrograms } = await import("../../../client/associations.ts");
  adoptPrograms(context());
  const document = editor.document(uri, "plaintext");
  editor.open(document);
  expect(document.languageId).toBe(expected ? "swarfline-nc" : "plaintext");
});

test("a new association counts for what is open, and a language the user then chooses stays", async () => {
  const { adoptPrograms } = await import("../../../client/associations.ts");
  const document = editor.document("file:///a.prg", "plaintext");
  adoptPrograms(context());
  expect(document.languageId).toBe("plaintext");
  editor.configure("swarfline.associations", [".prg"]);
  expect(document.languageId).toBe("swarfline-nc");
  document.languageId = "plaintext";
  editor.open(document);
  expect(document.languageId).toBe("plaintext");
});

test("a program above 50 MB gets one message, whether its tab opens or takes over a preview; others none", async () => {
  const { watchForLargeFiles } = await import("../../../client/large-files.ts");
  const large = { length: 50 * 1024 * 1024 + 1 } as Uint8Array;
  editor.files.set("file:///big.nc", large);
  editor.files.set("file:///big.log", large);
  editor.write("file:///small.nc", "%");
  watchForLargeFiles(context());
  for (const name of ["big.nc", "big.log", "small.nc", "none.nc"]) {
    editor.showTab({ input: new FakeTabInput(`file:///${name}`) }, "changed");
  }
  editor.showTab({ input: new FakeTabInput("file:///big.nc") });
  editor.showTab({ input: "a picture" });
  await vi.waitFor(() => expect(editor.messages).toHaveLength(1));
  expect(editor.messages[0]).toMatch(/^big\.nc is larger than 50 MB.*swarfline check big\.nc/);
});

test("the status tells by what the program in sight is checked, and leads to its setup", async () => {
  const { showInForce } = await import("../../../client/status.ts");
  let tell: ((params: InForceParams) => void) | undefined;
  showInForce({
    onNotification: (_, handler) => {
      tell = handler;
      return { dispose: () => undefined };
    },
  });
  const [item] = editor.statusItems;
  const covered = editor.document("file:///shop/a.nc", "swarfline-nc");
  const bare = editor.document("file:///else/b.nc", "swarfline-nc");
  editor.activate(covered);
  expect(item?.text).toBe("Not checked yet");
  const setup = "file:///shop/swarfline.yaml";
  tell?.({ uri: "file:///shop/a.nc", setup, dialect: "generic-mill", machine: "vmc", material: "42CrMo4" });
  tell?.({ uri: "file:///else/b.nc", setup: null, dialect: "nist", machine: null, material: null });
  expect(item).toMatchObject({ text: "vmc \u00b7 generic-mill \u00b7 42CrMo4", detail: "by swarfline.yaml" });
  expect(item?.command).toMatchObject({ command: "vscode.open", arguments: [{ path: "/shop/swarfline.yaml" }] });
  editor.activate(bare);
  expect(item).toMatchObject({ text: "no machine \u00b7 nist \u00b7 no material", command: undefined });
  expect(item?.detail).toMatch(/no swarfline\.yaml/);
});

test("the manifest names the language, the settings and the file names that the code relies on", async () => {
  const { EXTENSIONS } = await import("../../../client/program-names.ts");
  const { PROGRAM_LANGUAGE } = await import("../../../client/selector.ts");
  const [language] = manifest.contributes.languages;
  expect(language?.id).toBe(PROGRAM_LANGUAGE);
  expect(language?.extensions).toEqual(EXTENSIONS.map((extension) => `.${extension}`));
  expect(manifest.activationEvents).toContain(`onLanguage:${PROGRAM_LANGUAGE}`);
  expect(manifest.capabilities.untrustedWorkspaces.supported).toBe(true);
  expect(manifest.capabilities.virtualWorkspaces).toBe(true);
  expect(Object.keys(manifest.contributes.configuration.properties)).toEqual([
    "swarfline.associations",
    "swarfline.dialect",
    "swarfline.trace.server",
  ]);
});

test.each([
  ["file:///x/swarfline.yaml", "yaml", true],
  ["file:///x/mill.swarfline.yaml", "yaml", true],
  ["file:///x/other.yaml", "yaml", false],
  ["memfs:/x/a.txt", "swarfline-nc", true],
])("%s in %s is ours: %s", async (uri, language, expected) => {
  const { isOurs } = await import("../../../client/selector.ts");
  expect(isOurs(editor.document(uri, language) as unknown as vscode.TextDocument)).toBe(expected);
});
