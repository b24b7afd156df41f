/** The colouring grammar through the very tokeniser that editors use. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import oniguruma from "vscode-oniguruma";
import textmate, { type IGrammar } from "vscode-textmate";

const require = createRequire(import.meta.url);
const root = join(import.meta.dirname, "../../..");
const grammarFile = join(root, "grammar/swarfline-nc.tmLanguage.json");

let grammar: IGrammar;

beforeAll(async () => {
  const wasm = readFileSync(join(dirname(require.resolve("vscode-oniguruma")), "onig.wasm"));
  const onigLib = oniguruma.loadWASM(new Uint8Array(wasm)).then(() => ({
    createOnigScanner: (patterns: string[]) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text: string) => new oniguruma.OnigString(text),
  }));
  const registry = new textmate.Registry({
    onigLib,
    loadGrammar: async () => textmate.parseRawGrammar(readFileSync(grammarFile, "utf8"), grammarFile),
  });
  const loaded = await registry.loadGrammar("source.swarfline-nc");
  if (loaded === null) throw new Error("grammar not loaded");
  grammar = loaded;
});

/** `text scope` of every coloured piece; the innermost scope without the language's suffix. */
function scopes(line: string): string[] {
  return grammar
    .tokenizeLine(line, textmate.INITIAL)
    .tokens.map((token) => ({ text: line.slice(token.startIndex, token.endIndex), scope: token.scopes.at(-1) ?? "" }))
    .filter(({ text, scope }) => text.trim() !== "" && scope !== "source.swarfline-nc")
    .map(({ text, scope }) => `${text.trim()} ${scope.replace(".swarfline-nc", "")}`);
}

const NUMBER = "constant.numeric";

describe("scopes", () => {
  test.each<[string, string[]]>([
    ["%", ["% punctuation.definition.program"]],
    [
      "O1234 (PART)",
      [
        "O1234 entity.name.function.program",
        "( punctuation.definition.comment.begin",
        "PART comment.block",
        ") punctuation.definition.comment.end",
      ],
    ],
    [
      "N10 G01 X-.88",
      [
        "N10 entity.name.label.sequence",
        "G01 keyword.control.preparatory",
        "X variable.parameter.axis",
        `-.88 ${NUMBER}`,
      ],
    ],
    [
      "g0x +0. 12 34y 7",
      [
        "g0 keyword.control.preparatory",
        "x variable.parameter.axis",
        `+0. 12 34 ${NUMBER}`,
        "y variable.parameter.axis",
        `7 ${NUMBER}`,
      ],
    ],
    ["N1 POPEN", ["N1 entity.name.label.sequence", "POPEN support.function.output"]],
    [
      "DPRNT[X#1[53]*Y] M5",
      [
        "DPRNT support.function.output",
        ...["X#1", "[", "53", "]", "*Y"].map((text) => `${text} string.unquoted.output`),
        "M5 keyword.other.miscellaneous",
      ],
    ],
    ["T5 M6", ["T support.class.tool", `5 ${NUMBER}`, "M6 keyword.other.miscellaneous"]],
    ["S1200 F.1", ["S support.type.feed-speed", `1200 ${NUMBER}`, "F support.type.feed-speed", `.1 ${NUMBER}`]],
    [
      "G83 R2. Q3.",
      [
        "G83 keyword.control.preparatory",
        "R variable.parameter.value",
        `2. ${NUMBER}`,
        "Q variable.parameter.value",
        `3. ${NUMBER}`,
      ],
    ],
    ["/2 G1", ["/2 keyword.operator.block-delete", "G1 keyword.control.preparatory"]],
    [
      "M30; over",
      ["M30 keyword.other.miscellaneous", "; punctuation.definition.comment", "over comment.line.semicolon"],
    ],
    ["(X5 IF G1", ["( punctuation.definition.comment.begin", "X5 IF G1 comment.block"]],
    ["#1=#<_r>", ["#1 variable.other.numbered", "= keyword.operator", "#<_r> variable.other.named"]],
    ["Z-#101", ["Z variable.parameter.axis", "- keyword.operator", "#101 variable.other.numbered"]],
    [
      "IF[#1LT2]GOTO5",
      [
        "IF keyword.control.flow",
        "[ punctuation.section.brackets.begin",
        "#1 variable.other.numbered",
        "LT keyword.operator.word",
        `2 ${NUMBER}`,
        "] punctuation.section.brackets.end",
        "GOTO keyword.control.flow",
      ],
    ],
    [
      "WHILE[#1LE3]DO1",
      [
        "WHILE keyword.control.flow",
        "[ punctuation.section.brackets.begin",
        "#1 variable.other.numbered",
        "LE keyword.operator.word",
        `3 ${NUMBER}`,
        "] punctuation.section.brackets.end",
        "DO keyword.control.flow",
      ],
    ],
    [
      "XSIN[30]",
      [
        "X variable.parameter.axis",
        "SIN support.function",
        "[ punctuation.section.brackets.begin",
        `30 ${NUMBER}`,
        "] punctuation.section.brackets.end",
      ],
    ],
    [
      "o<part> call [1]",
      [
        "o<part> entity.name.function.program",
        "call keyword.control.flow",
        "[ punctuation.section.brackets.begin",
        `1 ${NUMBER}`,
        "] punctuation.section.brackets.end",
      ],
    ],
    ["X10 ,R2.", ["X variable.parameter.axis", `10 ${NUMBER}`, ",R variable.parameter.corner", `2. ${NUMBER}`]],
    [
      "(CUT ENTRY INCLINE 30 DEG)",
      [
        "( comment.block.documentation.cut-note",
        "CUT keyword.other.documentation.cut-note",
        "ENTRY entity.name.tag.cut-note",
        "INCLINE support.constant.cut-note",
        "30 constant.numeric.cut-note",
        "DEG support.constant.cut-note",
        ") comment.block.documentation.cut-note",
      ],
    ],
    ["(CUT=42 PCT)", ["(CUT=42 PCT) comment.block.documentation.cut-line"]],
    [
      "(CUTTER 5)",
      ["( punctuation.definition.comment.begin", "CUTTER 5 comment.block", ") punctuation.definition.comment.end"],
    ],
  ])("%s", (line, expected) => {
    expect(scopes(line)).toEqual(expected);
  });

  test("nothing runs over into the next line", () => {
    for (const line of ["(open", "X[1+2", "(CUT ENTRY SKIN", "; rest", "o100 while [", "#<open"]) {
      const end = grammar.tokenizeLine(line, textmate.INITIAL).ruleStack;
      const next = grammar.tokenizeLine("G1", end).tokens;
      expect(
        next.map((t) => t.scopes.join(" ")),
        line,
      ).toEqual(["source.swarfline-nc keyword.control.preparatory.swarfline-nc"]);
    }
  });
});

test("the word pattern of the language configuration takes whole words", () => {
  const configuration = JSON.parse(readFileSync(join(root, "grammar/language-configuration.json"), "utf8")) as {
    wordPattern: string;
  };
  const words = "N10 G01X-.8807Y+007.50F100. #101=#<_depth> GOTO5".match(new RegExp(configuration.wordPattern, "g"));
  expect(words).toEqual(["N10", "G01", "X-.8807", "Y+007.50", "F100.", "#101", "#<_depth>", "GOTO", "5"]);
});
