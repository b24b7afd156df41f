import fc from "fast-check";
import { expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { hoverProgram } from "../../../server/editor/hover/program-hover.ts";
import { review } from "../../../server/review/review.ts";
import type { Review } from "../../../server/review/types.ts";
import { LineStore } from "../../../server/text/lines.ts";
import { say } from "../../../server/units/wording.ts";
import { PROGRAM, SETUP, SETUP_URI } from "../../lsp/shop.ts";
import { parseXml } from "../pictures/xml.ts";

function reviewed(text: string, setup: string | null = SETUP): Review {
  const lines = LineStore.from(text);
  return review({
    program: "file:///shop/parts/plate.nc",
    lines,
    blocks: readBlocks(lines),
    sources: new Map(setup === null ? [] : [[SETUP_URI, setup]]),
    setupFile: setup === null ? null : SETUP_URI,
  });
}

/**
 * Hovers over the text between the markers, at its first and last character and just behind it.
 * @returns what the hover says, with plain spaces; null where there is none
 */
function hoverAt(marked: string, setup: string | null = SETUP): string | null {
  const start = marked.indexOf("⟦");
  const end = marked.indexOf("⟧") - 1;
  expect(start, "the marker").toBeGreaterThanOrEqual(0);
  const text = marked.replace(/[⟦⟧]/g, "");
  const line = text.slice(0, start).split("\n").length - 1;
  const before = text.lastIndexOf("\n", start - 1) + 1;
  const made = reviewed(text, setup);
  const said = [start, end - 1].map((at) => {
    const found = hoverProgram(made, line, at - before);
    if (found !== null) {
      expect([found.line, found.start, found.end], "the word").toEqual([line, start - before, end - before]);
    }
    return found?.markdown.replaceAll("\u00a0", " ") ?? null;
  });
  expect(said[1]).toBe(said[0]);
  return said[0] ?? null;
}

/** Lines of the fixture's setup: 10 the spindle's curve, 18 the tool, 19 its windows. */
const mark = (word: string, text = PROGRAM): string => {
  expect(text.split(word).length, `${word} stands once`).toBe(2);
  return text.replace(word, `⟦${word}⟧`);
};

/** The loads that the review itself gives, to hold the printed ones against. */
function loadsOf(text = PROGRAM, setup = SETUP) {
  const made = reviewed(text, setup);
  const shape = made.execution.shapes[0];
  if (shape === undefined) throw new Error("no hole");
  return made.loads(shape);
}

test.each<[string, string, (string | RegExp)[]]>([
  [
    "S tells the cutting speed with the numbers put in, and shows the envelope",
    "S2200",
    [
      "Cutting speed **180 m/min (590 ft/min)** `= π · 26 · 2200 / 1000`",
      "Rules 3 holes, all alike; first: line 7, T7 26.00 mm (1.024 in) indexable drill.",
      "Window of the tool: 140 to 220 m/min (459 to 722 ft/min), nominal 180 m/min (swarfline.yaml line 19)",
      "](data:image/svg+xml;base64,",
      "| n | 2200 1/min | S2200 in line 5 |",
      "| DC | 26.00 mm (1.024 in) | swarfline.yaml line 18 |",
      /Power the spindle can give at the cutter, continuous/,
    ],
  ],
  [
    "F tells the feed per turn, and the torque and thrust it makes",
    "F220.",
    [
      "Feed **0.100 mm/rev (0.0039 in/rev)** `= 220 / 2200`",
      "| F | 220 mm/min (8.7 in/min) | F220. in line 7 |",
      /\*\*Torque at the drill, mean over the turn\*\*: `M = DC² · f · kc \/ 8000/,
      /`= 26² · 0\.1 · \d+ \/ 8000/,
      /\*\*Thrust along the drill axis\*\*/,
      "common practice",
    ],
  ],
  [
    "T tells the tool with the origin of each value",
    "T7",
    [
      "**T7, 26.00 mm (1.024 in) indexable drill**",
      "| LU usable length | 78.00 mm (3.071 in) | swarfline.yaml line 18 |",
      "| P | 140 to 220 m/min",
    ],
  ],
  [
    "Z tells the depth",
    "Z-30.",
    ["| tip ends at Z | -30.00 mm (-1.181 in) |", "| depth in diameters | 1.2 x D |", "Point length, tip to corner"],
  ],
  [
    "R tells where the feed begins",
    "R2.",
    ["**Retract plane**", "| feed begins at Z | 2.00 mm (0.079 in) |", "| clearance above metal | 2.00 mm"],
  ],
  [
    "a cycle word tells what the cycle does, its loads and the envelope",
    "G81",
    [
      "**Drilling in one stroke**. Feeds from Z 2.00 mm (0.079 in) to Z -30.00 mm",
      "data:image/svg+xml",
      "Power at the cutter",
    ],
  ],
  [
    "the position tells everything about its hole",
    "X40.",
    ["**Hole 2** of 3, X 40.00, Y 10.00 in G54", "| vc | 180 m/min", "| f | 0.100 mm/rev", "**through**"],
  ],
  [
    "coolant tells its kind, pressure, flow and whom it serves",
    "M88",
    ["**Coolant through the tool** on: 20.0 bar (290 psi), 20.0 L/min (5.3 gal/min)", "Rules 3 holes"],
  ],
  ["coolant off says so", "M9", ["**M9**: all coolant off."]],
])("%s", (_, word, parts) => {
  const said = hoverAt(mark(word));
  for (const part of parts) {
    if (typeof part === "string") expect(said).toContain(part);
    else expect(said).toMatch(part);
  }
});

test("loads stand beside their limits as the review gives them", () => {
  const loads = loadsOf();
  const said = hoverAt(mark("F220."));
  const { power, thrust, limits } = loads;
  if (power === null || thrust === null || limits.power.continuous === null) throw new Error("the fixture has loads");
  const row = said?.split("\n").find((line) => line.startsWith("| Power |"));
  expect(row).toContain(`**${say(power.nominal, "power", "mm")}**`);
  expect(row).toContain(say(limits.power.continuous, "power", "mm"));
  expect(row).toContain(`**${Math.round((100 * power.nominal) / limits.power.continuous)} %**`);
  expect(said).toContain(`| Thrust | **${say(thrust.nominal, "force", "mm")}**`);
});

test("an inch program reads its own units first", () => {
  const inch = PROGRAM.replace("G21", "G20")
    .replace("X10. Y10. Z-30. R2. F220.", "X1. Y1. Z-1.2 R.1 F8.7")
    .replace("Z50. M88", "Z2. M88")
    .replace("X40.", "X2.")
    .replace("X70.", "X3.")
    .replace("G0 Z50. M9", "G0 Z2. M9");
  expect(hoverAt(mark("S2200", inch))).toContain("Cutting speed **590 ft/min (180 m/min)**");
  expect(hoverAt(mark("F8.7", inch))).toContain("**0.0040 in/rev (0.100 mm/rev)**");
});

test("the picture in the hover is a readable SVG with both the curve and the point", () => {
  const said = hoverAt(mark("S2200")) ?? "";
  const svg = atob(/base64,([^)]*)\)/.exec(said)?.[1] ?? "");
  expect(parseXml(svg)[0]).toBe("svg");
  expect(svg).toContain('id="continuous"');
  expect(svg).toContain('id="point"');
});

test("a word that rules holes of several kinds names the worst and the count", () => {
  const two = PROGRAM.replace("X40.\n", "X40. Z-20. F120.\n");
  const said = hoverAt(mark("S2200", two));
  expect(said).toContain("Rules 3 holes of 2 kinds; worst: line 7, T7");
});

test("pecks and dwells", () => {
  const pecked = PROGRAM.replace("G81", "G83").replace("R2. F220.", "R2. Q8. F220.");
  expect(hoverAt(mark("Q8.", pecked))).toMatch(
    /\*\*Peck 8\.00 mm \(0\.315 in\)\*\*, 0\.31 of the diameter.*in 4 strokes.*out of the hole/s,
  );
  const dwell = PROGRAM.replace("G81", "G82").replace("R2. F220.", "R2. P500 F220.");
  expect(hoverAt(mark("P500", dwell))).toMatch(/\*\*Dwell 0\.5 s\*\* at the bottom, 18\.3 turns/);
});

test.each([
  [
    "(CUT ENTRY INCLINE 30 DEG)",
    "the drill enters through a face inclined 30° from square to the drill. In force for 3 holes; it ends with G80 or the tool change.",
  ],
  ["(CUT ENTRY EDGE AREA 30 PCT)", "an edge: 30 % of the hole's area is in metal"],
  ["(CUT ENTRY EDGE AXIS IN 3.5)", "a straight edge, the drill's axis 3.50 mm (0.138 in) inside the metal"],
  ["(CUT ENTRY EDGE AXIS OUT 4.)", "the drill's axis 4.00 mm (0.157 in) outside the metal"],
  [
    "(CUT ENTRY RIDGE FLANK 30 DEG OFFSET 2.)",
    "a ridge with flanks falling 30° on both sides, the axis 2.00 mm (0.079 in) from its crest",
  ],
  ["(CUT ENTRY CYLINDER D120 CONVEX)", "a convex cylinder of 120.00 mm (4.724 in) across the drill"],
  ["(CUT ENTRY SKIN)", "a cast or forged skin"],
  ["(CUT EXIT INCLINE 15 DEG)", "the drill leaves through a face inclined 15°"],
  ["(CUT MATERIAL 42CRMO4 HB 290)", "the workpiece is 42CRMO4, hardness 290 HB. Reviewed as 42CrMo4"],
  [
    "(CUT ALLOW SPINDLE-POWER UP TO 8 KW BY JD BECAUSE SHORT RUN)",
    "allows findings of spindle\\-power up to 8 KW, because: SHORT RUN",
  ],
])("%s is said back in words", (note, words) => {
  const early = note.includes("MATERIAL") || note.includes("ALLOW");
  const text = early ? PROGRAM.replace("O1000\n", `O1000\n${note}\n`) : PROGRAM.replace("G98", `${note}\nG98`);
  expect(hoverAt(mark(note, text))).toContain(words);
});

test("an interrupted entry tells class, allowed feed and zone on F", () => {
  const text = PROGRAM.replace("G98", "(CUT ENTRY INCLINE 30 DEG)\nG98");
  const said = hoverAt(mark("F220.", text));
  expect(said).toContain(
    "**Entry interrupted, class heavy**: a face inclined 30° from square to the drill, told by a cut note; allows 0.050 mm/rev (0.0020 in/rev)",
  );
  expect(said).toMatch(/Zones by height of the tip: entry heavy from/);
  expect(said).toContain("`= max(0.04, 0.5 · 0.1)` = **0.050 mm/rev (0.0020 in/rev)**");
});

test("a tool that only a comment names is marked assumed, on its word and on the comment", () => {
  const text = PROGRAM.replace("T7 M6", "T9 M6 (T9 10.2 DRILL)").replace("H7", "H9");
  expect(hoverAt(mark("T9 M6", text).replace("⟦T9 M6⟧", "⟦T9⟧ M6"), null)).toMatch(
    /10\.20 mm.*assumed from the program's comment/,
  );
  expect(hoverAt(mark("(T9 10.2 DRILL)", text), null)).toMatch(/Read as \*\*T9, 10\.20 mm.*marked as assumed/s);
});

test("without a setup the hover says what is not known, never a guess", () => {
  const said = hoverAt(mark("F220."), null) ?? "";
  expect(said).toContain("| Power | unknown |");
  expect(said).toMatch(/not declared|unknown/);
  expect(said).not.toMatch(/NaN|Infinity|undefined|null/);
});

test("names from the setup cannot become markup", () => {
  const nasty = SETUP.replace("{ T: 7,", '{ T: 7, name: "[a](command:x) <img src=y> `b` ![c](d)|e",');
  const said = hoverAt(mark("T7"), nasty) ?? "";
  expect(said).toContain("\\[a\\]");
  expect(said).not.toMatch(/(?<!\\)\]\(command|<img|(?<!\\)!\[c/);
});

test.each(["%", "G21", "G0 Z50. M9", "M30"])("nothing is said where nothing is known: %s", (word) => {
  const at = PROGRAM.indexOf(word);
  const line = PROGRAM.slice(0, at).split("\n").length - 1;
  expect(hoverProgram(reviewed(PROGRAM), line, 0)).toBeNull();
});

const made = reviewed(PROGRAM);
const broken = reviewed("G83 X#1 Z[2\nT M6 S\n(CUT ENTRY\nF[1/0] G81\nZ Q P500 X1.2.3\nG1 Z-5 F0\n");

test("any place in any text gives a hover inside its line or none, without NaN", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(made, broken),
      fc.integer({ min: -2, max: 20 }),
      fc.integer({ min: -2, max: 60 }),
      (r, line, column) => {
        const found = hoverProgram(r, line, column);
        if (found === null) return;
        expect(found.line).toBe(line);
        expect(found.end).toBeLessThanOrEqual(r.input.lines.line(line).length);
        expect(found.start).toBeLessThan(found.end);
        expect(found.markdown.replace(/base64,[^)]*/g, "")).not.toMatch(/NaN|Infinity|undefined/);
      },
    ),
    { numRuns: 1000 },
  );
});

test("a hole that runs into an earlier one has the entry that is left of the metal", () => {
  const chain = PROGRAM.replace("X40.", "X29.5");
  expect(hoverAt(mark("X29.5", chain))).toContain(
    "**Entry interrupted, class heavy**: a chain: one equal hole already drilled at a pitch of 19.50 mm (0.768 in), by the stock and the holes drilled before; allows 0.050 mm/rev (0.0020 in/rev)",
  );
  const told = chain.replace("X29.5", "X29.5 (CUT ENTRY FLAT)");
  expect(hoverAt(mark("X29.5", told))).not.toContain("Entry");
  expect(hoverAt(mark("X40."))).not.toContain("Entry");
});

test("on a turning centre C and W lead to the hole, and Z is the depth without one too", () => {
  const setup = SETUP.replace("kind: mill", "kind: turn").replace(/dialect: .*\n/, "\n");
  const text = "G21 G97 G99\nT0303\nM33 S900\nG0 X40. Z5. C0\nG83 W-12. R2. Q3000 F.1\nC60.\nG80\nM30\n";
  expect(hoverAt(text.replace("C60.", "⟦C60.⟧"), setup)).toMatch(/Hole 2\b.*X 40\.00, Y 0\.00/);
  expect(hoverAt(text.replace("X40.", "⟦X40.⟧"), setup)).toBeNull();
});
