import { expect, test } from "vitest";
import { Files } from "../../../server/editor/files.ts";
import { fileName, isSetupFile, uriKey } from "../../../server/editor/uris.ts";

/** A client whose answers wait until they are let go. */
function slowClient() {
  const asked: { uri: string; answer: (text: string | null) => void }[] = [];
  const wait = (uri: string) => new Promise<string | null>((answer) => asked.push({ uri, answer }));
  return { asked, access: { read: wait, findSetup: wait } };
}
const closed = { get: () => undefined };
const open = (text: string) => ({ get: () => ({ text: () => text }) });

test("a file is asked for once, however many wait", async () => {
  const { asked, access } = slowClient();
  const files = new Files(access, closed);
  const both = Promise.all([files.load("file:///a.yaml"), files.load("file:///a.yaml")]);
  expect(asked).toHaveLength(1);
  asked[0]?.answer("text");
  await both;
  expect(files.textNow("file:///a.yaml")).toBe("text");
});

test("an answer that was asked for before the file changed is not kept", async () => {
  const { asked, access } = slowClient();
  const files = new Files(access, closed);
  const first = files.load("file:///a.yaml");
  files.forget("file:///a.yaml");
  asked[0]?.answer("old");
  await first;
  expect(files.textNow("file:///a.yaml")).toBeUndefined();
  const second = files.load("file:///a.yaml");
  asked[1]?.answer("new");
  await second;
  expect(files.textNow("file:///a.yaml")).toBe("new");
});

test("an open document wins over the disk and is never asked for", async () => {
  const { asked, access } = slowClient();
  const files = new Files(access, open("unsaved"));
  await files.load("file:///a.yaml");
  expect(asked).toHaveLength(0);
  expect(files.textNow("file:///a.yaml")).toBe("unsaved");
});

test("a client that refuses is a file that cannot be read", async () => {
  const refuse = () => Promise.reject(new Error("no"));
  const files = new Files({ read: refuse, findSetup: refuse }, closed);
  await files.load("file:///a.yaml");
  await files.loadSetup("file:///p.nc");
  expect(files.textNow("file:///a.yaml")).toBeNull();
  expect(files.setupNow("file:///p.nc")).toBeNull();
});

test("a setup file that appears makes every program look anew, a tool table does not", async () => {
  const files = new Files({ read: async () => null, findSetup: async () => null }, closed);
  await files.loadSetup("file:///p.nc");
  files.forget("file:///tools.csv");
  expect(files.setupNow("file:///p.nc")).toBeNull();
  files.forget("file:///sub/swarfline.yaml");
  expect(files.setupNow("file:///p.nc")).toBeUndefined();
});

test("one file has one key, however a client spells it", () => {
  expect(uriKey("file:///c%3A/parts/a%20b.nc")).toBe(uriKey("file:///c:/parts/a b.nc"));
  expect(uriKey("vscode-vfs://host/a.nc")).not.toBe(uriKey("file://host/a.nc"));
  expect(fileName("file:///x/a%20b.nc?q#f")).toBe("a b.nc");
  expect(fileName("file:///x/100%.nc")).toBe("100%.nc");
});

test.each([
  ["file:///x/swarfline.yaml", true],
  ["memfs:/x/mill.swarfline.yaml", true],
  ["file:///x/notswarfline.yaml", false],
  ["file:///x/swarfline.yaml/a.nc", false],
])("%s is a setup file: %s", (uri, expected) => {
  expect(isSetupFile(uri)).toBe(expected);
});
