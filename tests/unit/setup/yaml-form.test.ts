/** Mistakes of form in a setup, each with all that is said about it: `line:column-endLine:endColumn severity message`. */
import { describe, expect, test } from "vitest";
import { setupProblems } from "../../../server/setup/assist/problems.ts";
import { yamlFault } from "../../../server/setup/read/readable.ts";

function said(text: string): string[] {
  return setupProblems("swarfline.yaml", text).map(({ range: r, severity, message }) => {
    return `${r.line + 1}:${r.column + 1}-${r.endLine + 1}:${r.endColumn + 1} ${severity} ${message}`;
  });
}

const rows: readonly (readonly [what: string, text: string, problems: readonly string[]])[] = [
  [
    "no brace before a key in a list",
    "tools:\n  t:\n    - {\n        T: 1, DC: 3, family: gun,\n        windows: [\n          group: P, vc: [1, 2, 3] },\n        ],\n      }\n",
    ["6:35-6:36 error expected ] for the [ of line 5, column 18, got }: is a { missing before it?"],
  ],
  [
    "no bracket before a list",
    "tools:\n  t:\n    - {\n        T: 1, DC: 3, family: gun,\n        windows: { group: P, vc: 1, 2, 3] },\n      }\n",
    ["5:41-5:42 error expected } for the { of line 5, column 18, got ]: is a [ missing before it?"],
  ],
  [
    "no brace before a list",
    "tools:\n  t:\n    - {\n        T: 1,\n        entry: heavy: 0.5 },\n        NOF: 2,\n      }\n",
    [
      "5:27-5:28 error this } ends the { of line 3, column 7, and more follows: is a { missing before it?",
      "3:7-3:8 error tools.t[0]: expected T in a tool, got none",
    ],
  ],
  [
    "a comma outside of brackets",
    'tools:\n  t:\n    - name: "10 spot",\n      T: 1\n',
    ["3:22-3:23 error a comma parts entries only in brackets: expected the end of the line, or a { or [ above"],
  ],
  [
    "no colon in brackets",
    "machines: { m: { spindle [1] } }\n",
    ['1:26-1:27 error expected a colon or a comma before "[", got none'],
  ],
  [
    "a line between two levels",
    "machines:\n  vmc:\n    kind: mill\n   dialect: nist\n",
    [
      "4:4-4:17 error this line begins in column 4, where no level begins: expected column 5 (as line 3) or column 3 (as line 2) or column 1 (as line 1)",
    ],
  ],
  [
    "a line left of its level",
    "machines:\n    vmc: {}\n  hmc: {}\n",
    [
      "3:3-3:10 error this line begins in column 3, where no level begins: expected column 5 (as line 2) or column 1 (as line 1)",
    ],
  ],
  [
    "a line deeper than a value",
    "units: mm\n  programs: []\n",
    [
      "2:3-2:15 error line 1 has its value already, and this line stands deeper: expected it in column 1",
      "1:8-1:10 error units: expected one of mm, inch, got a map",
    ],
  ],
  [
    "a quote left open",
    'units: "mm\nmachines: {}\n',
    ['1:8-1:9 error this quote is not closed: expected another " at the end of the text'],
  ],
  [
    "a single quote left open",
    "units: 'mm\n",
    ["1:8-1:9 error this quote is not closed: expected another ' at the end of the text"],
  ],
  [
    "a brace left open",
    "machines:\n  vmc: { kind: mill\nunits: mm\n",
    ["2:8-2:9 error this { is not closed: expected } before line 3"],
  ],
  [
    "a brace left open to the end",
    "machines: { vmc: { kind: mill }\n",
    ["1:11-1:12 error this { is not closed: expected } before the end of the file"],
  ],
  [
    "a bracket left open",
    "tools:\n  crib: [ { T: 1 }\n",
    ["2:9-2:10 error this [ is not closed: expected ] before the end of the file"],
  ],
  [
    "a brace too many",
    "machines: { vmc: {} } }\n",
    ["1:23-1:24 error this } closes nothing: expected no more than the brackets that are open"],
  ],
  [
    "a bracket that closes nothing",
    "tools: ]\n",
    ["1:8-1:9 error this ] closes nothing: expected no more than the brackets that are open"],
  ],
  [
    "a bracket closed by another",
    "tools: [ { T: 1 ] }\n",
    ["1:17-1:18 error expected } for the { of line 1, column 10, got ]: is a [ missing before it?"],
  ],
  [
    "a tab",
    "machines:\n\tvmc: {}\n",
    ["2:1-2:2 error expected spaces before the key, got a tab: YAML does not indent by tabs"],
  ],
  [
    "a tab after spaces",
    "machines:\n  vmc:\n  \tkind: mill\n",
    ["3:3-3:4 error expected spaces before the key, got a tab: YAML does not indent by tabs"],
  ],
  [
    "no space after the colon",
    "machines:\n  vmc:{}\n  kind:mill\n",
    [
      '2:3-2:9 error machines: expected a map from a machine\'s name to its value, got "vmc:{} kind:mill": a space is missing after the colon',
    ],
  ],
  [
    "a section without its colon",
    "machines\n  vmc: {}\n",
    ['1:1-1:9 error expected a colon, as in "key: value", got "machines"'],
  ],
  [
    "a name without its colon",
    "machines:\n  vmc\n    kind: mill\nunits: mm\n",
    [
      '2:3-2:6 error expected a colon, as in "key: value", got "vmc"',
      '3:11-3:15 error machines.vmc kind: expected a machine: a map with kind, dialect, spindle, axis ..., got "mill"',
    ],
  ],
  [
    "a key without its colon",
    "units mm\nmachines: {}\n",
    ['1:1-1:9 error expected a colon, as in "key: value", got "units mm"'],
  ],
  [
    "two colons",
    "units: mm: inch\n",
    ["1:8-1:11 error expected one key and one value in a line, got a second colon: put a text in quotes, a map in { }"],
  ],
  [
    "an alias of nothing",
    "machines: *x\n",
    [
      "1:11-1:13 error no value is named &x above this line",
      "1:1-1:9 warning machines: expected a map from a machine's name to its value, got nothing yet",
    ],
  ],
  ["two documents", "units: mm\n---\nunits: inch\n", ["2:1-2:1 warning a second document begins here: it is not read"]],
  ["an anchor without a name", "a: &\n", ["1:4-1:5 error expected a name after &, got none"]],
  [
    "a text that begins with @",
    "units: @mm\n",
    ['1:8-1:9 error a text cannot begin with @: put it in quotes, as "@mm"'],
  ],
  [
    "backslashes in double quotes",
    'units: "C:\\tools\\qrib"\n',
    ["1:17-1:18 error \\q means nothing in double quotes: write \\\\ for a backslash, or use single quotes"],
  ],
  [
    "a comment stuck to a value",
    'units: "mm"#no\n',
    ["1:12-1:15 error expected a space before the # of a comment, got none"],
  ],
  [
    "no comma between keys",
    "machines: { vmc: { kind: mill dialect: nist } }\n",
    ["1:31-1:38 error expected a comma before dialect: entries in brackets are parted by commas"],
  ],
  [
    "no comma between lists",
    "tools: [1 2, [3] [4]]\n",
    ['1:18-1:19 error expected a comma before "[": entries in brackets are parted by commas'],
  ],
  [
    "no space after a dash",
    "tools:\n  crib:\n    -T: 1\n",
    [
      '3:5-3:10 error tools.crib: expected a list ([ ] or lines with -), or a text, got a map: a space is missing after the - of "-T"',
    ],
  ],
  [
    "a key in the column of a list",
    "tools:\n  - a\n  b: c\n",
    [
      "3:3-3:7 error a key cannot begin in the column of the - of line 2: expected column 5 (as line 2) or column 1 (as line 1)",
      "2:3-2:6 error tools: expected a map from a tool table's name to its value, got a list",
    ],
  ],
  [
    "a list item among keys",
    "tools:\n  b: c\n  - a\n",
    ["3:3-3:4 error expected a key as in the lines above, got a list item (-)"],
  ],
  [
    "a directive",
    "%FOO\nunits: mm\n",
    [
      "2:1-2:2 error expected --- after a line that begins with %, got none",
      "1:1-1:5 warning expected a key, got a line that begins with %: a setup has no directives",
    ],
  ],
  [
    "a tag",
    "units: !!foo mm\n",
    ["1:8-1:13 warning expected a value, got the tag !!foo: a setup has no tags; put a text in quotes"],
  ],
  ["words after |", "units: |foo\n mm\n", ['1:9-1:10 error expected the end of the line after |, got "foo"']],
  ["words after a quote", 'units: "mm" x\n', ['1:13-1:14 error expected the end of the line after the value, got "x"']],
  ["no key", "units: mm\n: x\n", ["2:1-2:1 error expected a key before the colon, got nothing"]],
  ["two anchors", "a: &x &y 1\n", ["1:7-1:9 error expected one name with & for a value, got two"]],
  [
    "a list item behind its key",
    "a: - b\n",
    [
      "1:4-1:5 error a list item (-) cannot stand on the line of its key: expected it on the next line, or a list in [ ]",
    ],
  ],
  [
    "a key of two lines",
    '"a\n b": c\n',
    ["1:1-1:3 error expected a key in one line, got one that goes on in the next"],
  ],
];

describe("a mistake of form is said in plain words, where it is mended", () => {
  test.each(rows)("%s", (_, text, problems) => {
    expect(said(text)).toEqual(problems);
  });

  test.each(rows)("%s: no term of a YAML reader is in it", (_, text) => {
    for (const message of [...said(text), yamlFault(text) ?? ""]) {
      expect(message).not.toMatch(/scalar|sequence|mapping|node|flow|implicit|token|anchor/i);
    }
  });
});

test("a setup asked for by name gives the first mistake, in the same words", () => {
  expect(yamlFault("machines:\n  vmc: { kind: mill\nunits: mm\n")).toBe(
    "line 2, column 8: this { is not closed: expected } before line 3",
  );
  expect(yamlFault("units: mm\n---\nunits: inch\n")).toBeNull();
});

test("one mistake a line, and none of what follows from it", () => {
  expect(said("tools: [{T: 1} {T: 2} {T: 3}]\n")).toHaveLength(1);
  const tabs = said("machines:\n".concat("\tvmc: {}\n".repeat(500)));
  expect(tabs.filter((each) => each.includes("got a tab"))).toHaveLength(1);
  expect(tabs[0]).toMatch(/499 more lines begin with one$/);
  const escapes = said("units: mm\n".concat(...Array.from({ length: 500 }, (_, i) => `k${i}: "\\q"\n`)));
  expect(escapes.filter((each) => each.includes("means nothing in double quotes"))).toHaveLength(20);
  expect(escapes[20]).toMatch(/more than 19 mistakes of form: the others are said when these are mended$/);
});

test("columns that a tab has moved are the same mistake", () => {
  const found = said(
    "machines:\n  vmc:\n    kind: mill\n\tdialect: generic-mill\n    toolChange: 4 s\n  old:\n    kind: mill\n",
  );
  expect(found).toHaveLength(1);
  expect(found[0]).toContain("got a tab");
});

test("after a line that stands too deep nothing is said of those below it", () => {
  const text =
    "machines:\n  knee:\n   kindd: mill\n    kind: mill\n    dialect: nist\n    spindle:\n      maxRpm: 4200\n    rate: 3\n";
  expect(said(text).filter((each) => each.includes(" error "))).toEqual([
    "4:5-4:15 error line 3 has its value already, and this line stands deeper: expected it in column 4",
  ]);
});

test("brackets and quotes in comments and texts open nothing", () => {
  expect(said("# it's { here\nmachines:\n  vmc: { kind: mill # don't [\nunits: mm\n")[0]).toMatch(
    /^3:8-3:9 error this \{/,
  );
  expect(said("tools:\n  crib: [{ T: 1, name: 'a [ b''s', DC: 3 }\nunits: mm\n")[0]).toMatch(/^2:9-2:10 error this \[/);
});
