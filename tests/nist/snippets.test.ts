import { describe, expect, test } from "vitest";
import { runSnippet } from "./run-snippet.ts";
import { EXPRESSIONS, LEXING, type Snippet } from "./snippets.ts";
import { CYCLES } from "./snippets-cycles.ts";
import { FLOW } from "./snippets-flow.ts";
import { MOTION } from "./snippets-motion.ts";

/** Checks that judge the language; loads and setup have their own tests. */
const LANGUAGE = new Set([
  "syntax",
  "dialect-rule",
  "unknown-code",
  "cycle-word-missing",
  "cycle-depth-order",
  "cycle-data-inherited",
  "length-offset",
  "not-executed",
  "flow-structure",
  "subprogram",
]);

const list = (value: RegExp | readonly RegExp[] | undefined): readonly RegExp[] =>
  value === undefined ? [] : value instanceof RegExp ? [value] : value;

describe.each([
  ["lexing and numbers", LEXING],
  ["expressions and parameters", EXPRESSIONS],
  ["modal state and motion", MOTION],
  ["canned cycles", CYCLES],
  ["jumps, loops and calls", FLOW],
] as const)("%s", (_, table: readonly Snippet[]) => {
  const cases = table.flatMap((snippet) =>
    (snippet.dialect === "both" || snippet.dialect === undefined
      ? (["nist", "generic-mill"] as const)
      : [snippet.dialect]
    ).map((dialect) => ({
      ...snippet,
      dialect,
      name: `${snippet.id} ${dialect} [${snippet.source}] ${snippet.text.replaceAll("\n", " ⏎ ")}`,
    })),
  );
  test.each(cases)("$name", async (snippet) => {
    const { name: _name, ...options } = snippet;
    const ran = await runSnippet(snippet.text, options);
    if (snippet.all !== undefined) expect(ran.moves).toEqual(snippet.all);
    if (snippet.moves !== undefined) expect(ran.moves.filter((m) => /^[RFAD]\(/.test(m))).toEqual(snippet.moves);
    if (snippet.seconds !== undefined) expect(ran.seconds).toEqual(snippet.seconds);
    const said = (severity: string) => ran.findings.filter((f) => f.severity === severity).map((f) => f.message);
    for (const wanted of list(snippet.error)) expect(said("error")).toContainEqual(expect.stringMatching(wanted));
    for (const wanted of list(snippet.warning)) {
      expect(said("warning")).toContainEqual(expect.stringMatching(wanted));
      expect(ran.findings.filter((f) => f.severity === "error" && LANGUAGE.has(f.check))).toEqual([]);
    }
    for (const wanted of list(snippet.info)) expect(said("info")).toContainEqual(expect.stringMatching(wanted));
    if (snippet.check !== undefined) expect(ran.findings.map((f) => f.check)).toContain(snippet.check);
    if (snippet.clean === true)
      expect(ran.findings.filter((f) => f.severity !== "info" && LANGUAGE.has(f.check))).toEqual([]);
  });
});
