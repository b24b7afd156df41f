import * as assert from "node:assert/strict";
import * as vscode from "vscode";

type Test = readonly [name: string, run: () => Promise<void>];

/** Waits on diagnostics events, never on a clock; the deadline only turns a hang into a failure. */
async function diagnostics(
  uri: vscode.Uri,
  wanted: (list: readonly vscode.Diagnostic[]) => boolean,
  what: string,
): Promise<readonly vscode.Diagnostic[]> {
  return await new Promise((resolve, reject) => {
    const look = () => {
      const list = vscode.languages.getDiagnostics(uri);
      if (!wanted(list)) return;
      clearTimeout(deadline);
      subscription.dispose();
      resolve(list);
    };
    const deadline = setTimeout(() => {
      subscription.dispose();
      const seen = vscode.languages.getDiagnostics(uri).map((d) => `${code(d)} ${d.message}`);
      reject(new Error(`${what}: not seen in 30 s; there is ${JSON.stringify(seen)}`));
    }, 30_000);
    const subscription = vscode.languages.onDidChangeDiagnostics(look);
    look();
  });
}

function code(diagnostic: vscode.Diagnostic): string {
  return typeof diagnostic.code === "object" ? String(diagnostic.code.value) : String(diagnostic.code);
}

const has = (check: string) => (list: readonly vscode.Diagnostic[]) => list.some((d) => code(d) === check);
const lacks = (check: string) => (list: readonly vscode.Diagnostic[]) => !has(check)(list);

async function open(name: string): Promise<vscode.TextEditor> {
  const folder = vscode.workspace.workspaceFolders?.[0];
  assert.ok(folder, "no workspace folder");
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder.uri, name));
  return await vscode.window.showTextDocument(document);
}

/** Range of the first occurrence of a text. */
function find(document: vscode.TextDocument, text: string): vscode.Range {
  const at = document.getText().indexOf(text);
  assert.ok(at >= 0, `${text} is not in ${document.uri.path}`);
  return new vscode.Range(document.positionAt(at), document.positionAt(at + text.length));
}

async function hover(document: vscode.TextDocument, position: vscode.Position): Promise<string> {
  const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
    "vscode.executeHoverProvider",
    document.uri,
    position,
  );
  return hovers
    .flatMap((h) => h.contents)
    .map((c) => (typeof c === "string" ? c : c.value))
    .join("\n");
}

export const tests: readonly Test[] = [
  [
    "a program opens in our language and its danger stands at the word that causes it",
    async () => {
      const { document } = await open("manifold-bore.nc");
      assert.equal(document.languageId, "swarfline-nc");
      const list = await diagnostics(document.uri, has("spindle-power"), "over-power");
      const power = list.find((d) => code(d) === "spindle-power");
      assert.ok(power);
      assert.equal(power.source, "swarfline");
      assert.match(power.message, /kW/);
      assert.match(power.message, /hp/);
      assert.match(document.getText(power.range), /^[FS]/);
    },
  ],
  [
    "hovering S and F tells speed and feed in both systems with the arithmetic",
    async () => {
      const { document } = await open("manifold-bore.nc");
      await diagnostics(document.uri, has("spindle-power"), "over-power");
      const speed = await hover(document, find(document, "S1500").start.translate(0, 1));
      assert.match(speed, /m\/min/);
      assert.match(speed, /ft\/min/);
      assert.match(speed, /image\/svg\+xml/);
      const feed = await hover(document, find(document, "F180.").start.translate(0, 1));
      assert.match(feed, /mm\/rev/);
      assert.match(feed, /in\/rev/);
    },
  ],
  [
    "a lower F makes the finding go, and undo brings it back",
    async () => {
      const { document } = await open("manifold-bore.nc");
      await diagnostics(document.uri, has("spindle-power"), "over-power");
      const edit = new vscode.WorkspaceEdit();
      edit.replace(document.uri, find(document, "F180."), "F60.");
      assert.ok(await vscode.workspace.applyEdit(edit));
      await diagnostics(document.uri, lacks("spindle-power"), "no over-power at F60.");
      await vscode.commands.executeCommand("undo");
      await diagnostics(document.uri, has("spindle-power"), "over-power again");
      await vscode.commands.executeCommand("workbench.action.files.revert");
    },
  ],
  [
    "a clean program stays silent",
    async () => {
      const { document } = await open("cover-dowels.nc");
      // Its hover proves that the review has run: silence alone would prove nothing.
      const text = await hover(document, find(document, "S3930").start.translate(0, 1));
      assert.match(text, /m\/min/);
      await diagnostics(document.uri, (list) => list.length === 0, "silence");
    },
  ],
  [
    "an unsaved change of the setup changes the findings of the program",
    async () => {
      const { document } = await open("manifold-bore.nc");
      await diagnostics(document.uri, has("spindle-power"), "over-power");
      const setup = (await open("swarfline.yaml")).document;
      await open("manifold-bore.nc");
      const edit = new vscode.WorkspaceEdit();
      edit.insert(setup.uri, setup.positionAt(setup.getText().length), "\nseverity: { spindle-power: off }\n");
      assert.ok(await vscode.workspace.applyEdit(edit));
      await diagnostics(document.uri, lacks("spindle-power"), "spindle-power switched off");
      await vscode.window.showTextDocument(setup);
      await vscode.commands.executeCommand("workbench.action.files.revert");
      await open("manifold-bore.nc");
      await diagnostics(document.uri, has("spindle-power"), "over-power again");
    },
  ],
  [
    "a broken value in the setup is told at its place, and completion knows the keys",
    async () => {
      const { document } = await open("swarfline.yaml");
      const edit = new vscode.WorkspaceEdit();
      edit.replace(document.uri, find(document, "maxRpm: 9000"), "maxRpm: fast");
      assert.ok(await vscode.workspace.applyEdit(edit));
      const list = await diagnostics(document.uri, (l) => l.length > 0, "a setup finding");
      const problem = list.find((d) => document.getText(d.range).includes("fast"));
      assert.ok(problem, `no finding at the value: ${list.map((d) => d.message).join("; ")}`);
      const at = find(document, "maxRpm: fast").start;
      const keys = await vscode.commands.executeCommand<vscode.CompletionList>(
        "vscode.executeCompletionItemProvider",
        document.uri,
        at,
      );
      const labels = keys.items.map((i) => (typeof i.label === "string" ? i.label : i.label.label));
      assert.ok(
        labels.includes("shortTime") || labels.includes("efficiency"),
        `keys: ${labels.slice(0, 20).join(", ")}`,
      );
      await vscode.commands.executeCommand("workbench.action.files.revert");
    },
  ],
];
