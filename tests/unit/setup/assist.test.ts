/** The cursor stands at `|`. */
import { describe, expect, test } from "vitest";
import { completeSetup } from "../../../server/setup/assist/complete.ts";
import { hoverSetup } from "../../../server/setup/assist/hover.ts";

function at(marked: string): { readonly text: string; readonly line: number; readonly column: number } {
  const [before = "", after = ""] = marked.split("|");
  const lines = before.split("\n");
  return { text: before + after, line: lines.length - 1, column: lines.at(-1)?.length ?? 0 };
}

function complete(marked: string): readonly string[] {
  const { text, line, column } = at(marked);
  return completeSetup(text, line, column, { checks: ["spindle-power", "walk"] }).map((item) => item.label);
}

const SECTIONS = [
  "units",
  "programs",
  "machines",
  "tools",
  "workpieces",
  "materials",
  "subprograms",
  "practice",
  "severity",
];
const MACHINE = ["kind", "dialect", "spindle", "axis", "coolant", "toolChange", "rate"];
const FAMILIES = [
  "twist-hss",
  "solid-carbide",
  "indexable",
  "spade",
  "gun",
  "spot",
  "ream",
  "tap",
  "countersink",
  "bore",
];

describe("completion: exactly these", () => {
  test.each<[string, string, readonly string[]]>([
    ["an empty file", "|", SECTIONS],
    ["a word begun", "uni|", SECTIONS],
    ["a section's name is being written", "ma|chines:\n", SECTIONS],
    [
      "what stands is not offered again",
      "units: mm\n|\nmachines:\n",
      SECTIONS.filter((s) => s !== "units" && s !== "machines"),
    ],
    ["an empty line with indentation", "machines:\n  vmc:\n    |", MACHINE],
    [
      "keys below count too",
      "machines:\n  vmc:\n    |\n    rate: 5\n  b:\n    kind: mill\n",
      MACHINE.filter((s) => s !== "rate"),
    ],
    [
      "back out one level",
      "machines:\n  vmc:\n    axis:\n      thrust: 8 kN\n    |",
      MACHINE.filter((s) => s !== "axis"),
    ],
    ["a choice", "machines:\n  vmc:\n    kind: |", ["mill", "turn"]],
    ["a choice begun", "machines:\n  vmc:\n    kind: m|", ["mill", "turn"]],
    ["in a flow map, a value", "tools:\n  crib:\n    - { T: 3, family: | }", FAMILIES],
    ["in a flow map, a value begun", "tools:\n  crib:\n    - { T: 3, family: so| }", FAMILIES],
    ["in a flow map that is not closed", "machines:\n  vmc: { kind: |", ["mill", "turn"]],
    ["after a flow map that was never closed", "machines:\n  v: { spindle: {\n  b:\n    |", MACHINE],
    ["a dialect", "machines:\n  vmc:\n    dialect: |", ["nist", "generic-mill", "generic-turn"]],
    [
      "names that the file declares",
      "programs:\n  - files: a.nc\n    machine: |\nmachines:\n  vmc:\n    kind: mill\n  lathe: {}\n",
      ["vmc", "lathe"],
    ],
    ["checks", "severity:\n  |", ["spindle-power", "walk"]],
    ["severities", "severity: { walk: |", ["error", "warning", "info", "off"]],
    ["units for a number", "machines:\n  vmc:\n    axis: { thrust: 8| }", ["8 N", "8 lbf", "8 kN", "8 kgf"]],
    [
      "scales for a hardness",
      "workpieces:\n  b:\n    hardness: 290|",
      ["290 HB", "290 HRC", "290 HV", "290 MPa", "290 ksi"],
    ],
    ["three numbers", "tools:\n  crib:\n    - T: 3\n      windows: [{ group: P, vc: | }]", ["[min, nominal, max]"]],
    ["nothing where nothing is known", "nonsense:\n  |", []],
    ["nothing in a comment", "machines: # |", []],
    ["nothing in a long text", "materials:\n  a:\n    source: >\n      so said |", []],
  ])("%s", (_what, marked, labels) => {
    const found = complete(marked);
    expect([...found].sort()).toEqual([...labels].sort());
  });
});

const STOCK = "workpieces:\n  b:\n    stock:\n      ";

describe("completion: among others", () => {
  test.each<[string, string, string]>([
    ["a key in a flow map", "tools:\n  crib:\n    - { T: 3, fam| }", "family"],
    ["a key on the next line of a flow map", "tools:\n  crib:\n    - { T: 7,\n        |", "DC"],
    ["a key of a list item", "tools:\n  crib:\n    - T: 3\n      |", "SIG"],
    ["a key after a dash", "tools:\n  crib:\n    - |", "T"],
    ["a list at the indent of its key", "programs:\n- files: a.nc\n  |", "machine"],
    ["a new item", "tools:\n  crib:\n    |", "- "],
    ["a material", "workpieces:\n  b:\n    material: |", "42CrMo4"],
    ["a material of the file", "workpieces:\n  b:\n    material: |\nmaterials:\n  shop-cast: {}\n", "shop-cast"],
    ["a dialect's key", "machines:\n  vmc:\n    dialect: { inherit: nist, dwe|", "dwellP"],
    ["an entry", "workpieces:\n  b:\n    entries:\n      - entry: |", "INCLINE 30 DEG"],
    ["a code", "machines:\n  vmc:\n    coolant:\n      |", "M88"],
    ["the forms of a solid", `${STOCK}solids:\n        - |`, "plates"],
    ["a form of a void in flow", `${STOCK}voids: [{ sl| }]`, "slot"],
    ["a key of a face in flow", `${STOCK}solids: [{ face: { inc| } }]`, "incline"],
    ["a key of a face on a line of its own", `${STOCK}solids:\n        - face:\n            |`, "towards"],
    ["one more face", `${STOCK}solids:\n        - face:\n            |`, "- "],
    ["a key of one of several faces", `${STOCK}solids: [{ face: [{ | }] }]`, "side"],
    ["a side to fall to", `${STOCK}solids: [{ face: { towards: | } }]`, "y-"],
    ["a layer", `${STOCK}solids: [{ plates: { layers: [{ | }] } }]`, "gap"],
    ["no floor", `${STOCK}voids: [{ hole: { floor: | } }]`, "none"],
    ["what a skin is on", `${STOCK}skin: { on: | }`, "top"],
    ["deep in flow", "workpieces: { b: { stock: { solids: [{ cylinder: { axis: z, | } }] } } }", "diameter"],
  ])("%s", (_what, marked, label) => {
    expect(complete(marked)).toContain(label);
  });

  test("what it inserts replaces the word that was begun", () => {
    const { text, line, column } = at("tools:\n  crib:\n    - { T: 3, fam| }");
    const item = completeSetup(text, line, column).find((i) => i.label === "family");
    expect(item?.replace).toEqual({ start: 14, end: 17 });
    expect(item?.insert).toBe(`family: \${1|${FAMILIES.join(",")}|}`);
    expect(item?.documentation).toMatch(/Kind of hole-making tool/);
  });
});

describe("what is inserted", () => {
  test.each<[string, string, string, string]>([
    ["a map under a key", "machines:\n  vmc:\n    |", "spindle", "spindle:\n  $1"],
    ["a map behind a dash stands deeper", "tools:\n  crib:\n    - |", "entry", "entry:\n    $1"],
    ["a map that may be a list", `${STOCK}solids: [{ fa| }]`, "face", "face: { $1 }"],
    ["a form on a line of its own", `${STOCK}voids:\n        - |`, "crossHole", "crossHole:\n    $1"],
    ["a map in a flow map", "machines:\n  vmc: { |", "spindle", "spindle: { $1 }"],
    ["a value straight behind its colon", "machines:\n  vmc:\n    kind:|", "mill", " mill"],
    ["only the word, where a colon stands", "machines:\n  vmc:\n    ki|nd: mill", "kind", "kind"],
    [
      "an entry in quotes",
      "workpieces:\n  b:\n    entries:\n      - entry: |",
      "INCLINE 30 DEG",
      `"INCLINE \${1:30} DEG"`,
    ],
  ])("%s", (_what, marked, label, insert) => {
    const { text, line, column } = at(marked);
    expect(completeSetup(text, line, column).find((item) => item.label === label)?.insert).toBe(insert);
  });
});

function hover(marked: string): string | null {
  const { text, line, column } = at(marked);
  return hoverSetup(text, line, column)?.markdown ?? null;
}

describe("hovers", () => {
  test.each<[string, string, RegExp]>([
    [
      "a key says what it means and its unit",
      "machines:\n  vmc:\n    axis: { thr|ust: 8 kN }",
      /machines\.vmc\.axis\.thrust\*\*: a force in N or lbf[\s\S]*drilling axis can hold[\s\S]*Bare numbers are N/,
    ],
    [
      "in an inch file the other unit",
      "units: inch\nmachines:\n  vmc:\n    axis: { thr|ust: 8 kN }",
      /Bare numbers are lbf/,
    ],
    ["a value in both systems", "machines:\n  vmc:\n    axis: { thrust: 8| kN }", /8000 N \(1798 lbf\)/],
    [
      "a bare number by the file's units",
      "units: inch\nmachines:\n  v:\n    axis:\n      maxFeed: 47|0",
      /470\.0 in\/min \(11938 mm\/min\)/,
    ],
    [
      "a key of a face",
      `${STOCK}solids: [{ face: { inc|line: 30 } }]`,
      /stock\.solids\.face\.incline\*\*: an angle in deg[\s\S]*Angle between the face and its side/,
    ],
    ["a direction of a face", `${STOCK}solids: [{ face: { towards: x|+ } }]`, /Falls towards larger X/],
    ["an angle in place of a direction", `${STOCK}solids: [{ face: { towards: 4|5 } }]`, /45(\.0)?°/],
    [
      "a form",
      `${STOCK}voids: [{ cross|Hole: {} }]`,
      /A hole across the ones to be drilled[\s\S]*For example `\{ along: x/,
    ],
    [
      "a number inside a list",
      "tools:\n  crib:\n    - T: 3\n      windows: [{ group: P, vc: [70, 9|0, 110] }]",
      /90 m\/min \(295 ft\/min\)/,
    ],
    [
      "a hardness in the other scales",
      "workpieces:\n  b:\n    hardness: 32| HRC",
      /302 HB, about 32 HRC, 319 HV[\s\S]*ASTM E140[\s\S]*ISO 18265/,
    ],
    [
      "a material with its sources",
      "workpieces:\n  b:\n    material: AISI 41|40",
      /42CrMo4, group P[\s\S]*kc1\.1 2500 N\/mm² \(363 ksi\), mc 0\.26 \(Kienzle\/Victor line/,
    ],
    [
      "a choice",
      "tools:\n  crib:\n    - { T: 3, family: ind|exable }",
      /indexable\n\nDrill with a centre and a peripheral insert/,
    ],
    [
      "a wrong value says what was expected",
      "machines:\n  vmc:\n    axis: { thrust: 8| kW }",
      /"kW" is no unit of a force/,
    ],
    ["a fallback", "machines:\n  vmc:\n    spindle:\n      effi|ciency: 0.9", /Left out: from `drive`/],
  ])("%s", (_what, marked, wanted) => {
    expect(hover(marked)).toMatch(wanted);
  });
  test.each([["nonsense: 3|"], ["|"], ["# comm|ent"], ["machines: |"]])("nothing to say in %s", (marked) => {
    expect(hover(marked)).toBeNull();
  });
});
