import { describe, expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { runChecks } from "../../../server/checks/run.ts";
import type { Check } from "../../../server/checks/types.ts";
import { MAX_LIVE_LINES, tooLargeMessage } from "../../../server/review/large.ts";
import { lineRange, publicPlace } from "../../../server/review/places.ts";
import { review } from "../../../server/review/review.ts";
import { printSetupJson } from "../../../server/setup/print.ts";
import { LineStore } from "../../../server/text/lines.ts";
import { approach, PROGRAM, program, reviewText, SETUP_FILE, SHOP, seen } from "../checks/shop.ts";

const OVER = program(...approach(3, 2500), "G81 X0. Y0. Z-20. R2. F800.", "G80 M9", "M5");

describe("missing files", () => {
  test("a setup that is not in the sources is asked for", () => {
    const lines = LineStore.from(OVER);
    const made = review({
      program: PROGRAM,
      lines,
      blocks: readBlocks(lines),
      sources: new Map(),
      setupFile: SETUP_FILE,
    });
    expect(made.missing).toEqual([SETUP_FILE]);
  });

  test("a tool table of its own is asked for, and taken when it comes", () => {
    const setup = SHOP.replace("tools: crib,", "tools: crib.csv,");
    const first = reviewText(OVER, setup).review;
    expect(first.missing).toEqual(["/shop/crib.csv"]);
    const csv = "T,family,DC,windows.P.f.min,windows.P.f.nominal,windows.P.f.max\n3,solid-carbide,10.2,0.15,0.2,0.25\n";
    const second = reviewText(OVER, setup, {
      sources: new Map([
        [SETUP_FILE, setup],
        ["/shop/crib.csv", csv],
      ]),
    }).review;
    expect(second.missing).toEqual([]);
    expect(second.findings.map((finding) => finding.check)).toContain("feed-window");
  });
});

describe("a material told in the program", () => {
  const dry = ["T3 M6", "G0 X0. Y0. S2500 M3", "G43 H3 Z50.", "G81 X0. Y0. Z-20. R2. F450."];

  test("goes before that of the setup", () => {
    const made = reviewText(program("(CUT MATERIAL EN-GJL-250 HB 200)", ...dry)).review;
    expect(made.setup.material?.group).toBe("K");
    expect(made.setup.material?.hardnessHB).toBe(200);
  });

  test("takes the place of the workpiece's material and hardness, and is named as origin", () => {
    const told = (note: string) => {
      const { setup } = reviewText(program(note, ...dry)).review;
      const { values } = printSetupJson(setup);
      const of = (key: string) => {
        const value = values.find(({ path }) => path.endsWith(key));
        return value === undefined ? null : `${value.value}, ${value.origin.text}`;
      };
      return [of(".material"), of(".hardness"), setup.workpiece?.hardnessText ?? null, setup.material?.hardnessHB];
    };
    const note = "cut note, line 3";
    expect(told("(CUT MATERIAL S235JR)")).toEqual([`S235JR, ${note}`, null, null, 126]);
    expect(told("(CUT MATERIAL S235JR 140 HB)")).toEqual([`S235JR, ${note}`, `140 HB, ${note}`, "140 HB", 140]);
    // The setup's own material again, without a hardness: the one measured stays.
    const [material, , , hardness] = told("(CUT MATERIAL 42CRMO4)");
    expect(material).toMatch(/^42CrMo4, .*line \d+$/);
    expect(hardness).toBe(reviewText(program(...dry)).review.setup.workpiece?.hardnessHB);
  });

  test("stands without a setup too", () => {
    const { setup } = reviewText(program("(CUT MATERIAL 42CRMO4 HB 250)", ...dry), null).review;
    expect(setup.workpiece).toMatchObject({ materialKey: "42CrMo4", hardnessHB: 250, hardnessText: "250 HB" });
    expect(setup.origins.get("workpiece.material")?.text).toBe("cut note, line 3");
  });

  test("that nobody knows leaves that of the setup", () => {
    const made = reviewText(program("(CUT MATERIAL UNOBTAINIUM)", ...dry)).review;
    expect(made.setup.material?.key).toBe("42CrMo4");
  });
});

describe("an edit", () => {
  test("replays on the review before and gives what a fresh review gives", () => {
    const text = program(...approach(3, 2500), "G81 X0. Y0. Z-20. R2. F450.", "X20.", "X40.", "G80 M9", "M5");
    const lines = LineStore.from(text);
    const blocks = readBlocks(lines);
    const input = { program: PROGRAM, lines, blocks, sources: new Map([[SETUP_FILE, SHOP]]), setupFile: SETUP_FILE };
    const first = review(input);
    expect(first.findings).toEqual([]);
    const line = 6;
    const start = lines.line(line).indexOf("F450.");
    blocks.update(
      lines.edit({ startLine: line, startColumn: start, endLine: line, endColumn: start + 5, text: "F800." }),
    );
    const second = review({ ...input, previous: first });
    expect(seen({ review: second, lines })).toEqual(seen(reviewText(lines.text())));
    expect(second.findings.map((finding) => finding.check)).toEqual(["feed-window"]);
    expect(second.input.previous).toBeUndefined();
    blocks.update(lines.edit({ startLine: 0, startColumn: 0, endLine: 0, endColumn: 0, text: "(ABOVE)\n" }));
    const third = review({ ...input, previous: second });
    expect(seen({ review: third, lines })).toEqual(seen(reviewText(lines.text())));
  });
});

describe("severity", () => {
  const set = (level: string): string =>
    SHOP.replace("workpieces:", `severity: { feed-window: ${level} }\nworkpieces:`);

  test.each(["error", "warning", "info"])("%s is taken from the setup", (level) => {
    expect(seen(reviewText(OVER, set(level))).map(({ check, severity }) => `${check} ${severity}`)).toEqual([
      `feed-window ${level}`,
    ]);
  });

  test("off takes it away", () => {
    expect(seen(reviewText(OVER, set("off")))).toEqual([]);
  });
});

describe("a check that fails", () => {
  test("is named once and leaves the others working", () => {
    const { review: made } = reviewText(OVER);
    const broken: Check = {
      id: "broken",
      family: "setup" as const,
      severity: "error",
      docs: { title: "", what: "", why: "", formula: "", example: "", better: "", limits: "", source: "" },
      detect() {
        throw new Error("secret detail");
      },
    };
    const other: Check = { ...broken, id: "other", detect: () => made.findings };
    const findings = runChecks(made.execution, made.setup, made.loads, [], [broken, other]);
    const faults = findings.filter((finding) => finding.check === "internal");
    expect(faults).toHaveLength(1);
    expect(faults[0]?.message).toContain('The check "broken" failed');
    expect(faults[0]?.message).not.toContain("secret");
    expect(findings.map((finding) => finding.check)).toContain("feed-window");
  });

  test("loads that throw fail no review", () => {
    const { review: made } = reviewText(OVER);
    const findings = runChecks(made.execution, made.setup, () => {
      throw new Error("no loads");
    });
    expect(findings.length).toBeGreaterThan(0);
    expect(new Set(findings.map((finding) => finding.check))).toEqual(new Set(["internal"]));
  });
});

describe("places", () => {
  test("count from 1 in public and from 0 in the editor", () => {
    const { review: made } = reviewText(OVER);
    const place = made.findings[0]?.place;
    expect(place).toBeDefined();
    if (place === undefined) return;
    const blocks = made.execution.blocks;
    expect(publicPlace(place, "part.nc", blocks)).toEqual({
      file: "part.nc",
      line: 7,
      column: 23,
      endLine: 7,
      endColumn: 28,
    });
    expect(lineRange(place, blocks)).toEqual({ line: 6, start: 22, endLine: 6, end: 27 });
  });

  test("a place in another file names that file", () => {
    const { review: made } = reviewText("M30");
    const place = { in: "file", file: "s.yaml", line: 3, column: 0, endLine: 3, endColumn: 5 } as const;
    expect(publicPlace(place, "p.nc", made.execution.blocks)).toEqual({
      file: "s.yaml",
      line: 4,
      column: 1,
      endLine: 4,
      endColumn: 6,
    });
  });

  test("a block that is gone keeps its finding, on the first line", () => {
    const { review: made } = reviewText("M30");
    const gone = { in: "program", span: { block: 999, start: 3, end: 9 } } as const;
    expect(lineRange(gone, made.execution.blocks)).toEqual({ line: 0, start: 0, endLine: 0, end: 0 });
  });
});

test("findings come in order of place, those of the setup first", () => {
  const setup = SHOP.replace("workpieces:", "severity: { nonsense: off }\nworkpieces:");
  const text = program(...approach(3, 4700), "G81 X0. Y0. Z-20. R2. F2000.");
  const found = seen(reviewText(text, setup));
  expect(found.map((finding) => finding.check)[0]).toBe("setup");
  const lines = found.slice(1).map((finding) => finding.line);
  expect(lines).toEqual([...lines].sort((a, b) => a - b));
});

test("a program too large for the editor gets one sentence with the way out", () => {
  expect(tooLargeMessage(MAX_LIVE_LINES, "big.nc")).toBeNull();
  expect(tooLargeMessage(MAX_LIVE_LINES + 1, "big.nc")).toContain('"swarfline check big.nc"');
});

test("no setup and an empty text are no fault", () => {
  for (const text of ["", "\n", "%", "()", "\u0000\uffff"]) {
    expect(seen(reviewText(text, null)).filter((finding) => finding.check === "internal")).toEqual([]);
  }
});
