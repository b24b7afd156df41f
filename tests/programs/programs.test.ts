/** Full programs in the styles that are met in shops: no false error, each finding marked in the file, holes counted by hand. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it, test } from "vitest";
import { expectedFindings, unlike } from "../../examples/expected.mjs";
import { readBlocks } from "../../grammar/read.ts";
import { publicPlace } from "../../server/review/places.ts";
import { review } from "../../server/review/review.ts";
import { decode } from "../../server/text/decode.ts";
import { LineStore } from "../../server/text/lines.ts";

const folder = import.meta.dirname;
const SETUP = join(folder, "swarfline.yaml");
const CALLED = join(folder, "called", "O8001.nc");
const read = (path: string): string => decode(readFileSync(path)).text;
const sources = new Map([SETUP, CALLED].map((path) => [path, read(path)]));

/** Holes by hand: how many, and where the number comes from. */
const HOLES: Readonly<Record<string, readonly [count: number, why: string]>> = {
  "bolt-circle.nc": [12, "8 on the outer circle, 4 on the inner"],
  "called-file.nc": [4, "one here, three in the called file"],
  "family.nc": [3, "size 2 has three holes"],
  "job-inch.nc": [6, "three and three back"],
  "kept-size.nc": [3, "both ways of the condition: the first, the one that may be left out, the last"],
  "local-call.nc": [8, "four places, two tools"],
  "lower-case.nc": [3, "three positions"],
  "mixed-ends.nc": [2, "two positions"],
  "old-plain.nc": [3, "three positions"],
  "open-comment.nc": [2, "two positions"],
  "posted.nc": [18, "six places, three tools"],
  "repeats.nc": [5, "three by P3 2000, two by L2"],
  "rigid.nc": [4, "two drilled, two tapped"],
  "row-g91.nc": [10, "1 + 4, the next row 1 + 4"],
  "structured.nc": [5, "four in the loop, one behind it"],
  "switch.nc": [4, "two, and two more with the switches off"],
  "systems.nc": [4, "two in each system"],
  "through.nc": [2, "two positions"],
  "turn-centre.nc": [1, "the centre"],
  "turned.nc": [4, "two turned, two shifted"],
  "umlaut.nc": [2, "two positions"],
  "written-out.nc": [2, "three pecks and two, each one hole"],
  "wrong-many.nc": [2, "two positions"],
};
const names = readdirSync(folder).filter((name) => name.endsWith(".nc"));

function reviewed(name: string) {
  const program = join(folder, name);
  const lines = LineStore.from(read(program));
  const blocks = readBlocks(lines);
  return { lines, blocks, made: review({ program, lines, blocks, sources, setupFile: SETUP }) };
}

test("each program is counted, and there are twenty at least", () => {
  expect(names).toEqual(Object.keys(HOLES));
  expect(names.length).toBeGreaterThanOrEqual(20);
});

describe.each(names)("%s", (name) => {
  const { lines, blocks, made } = reviewed(name);

  it("has exactly the findings marked in it", () => {
    const found = made.findings.map((f) => ({ ...f, line: publicPlace(f.place, name, blocks).line }));
    expect(unlike(expectedFindings(join(folder, name)), found)).toEqual([]);
  });

  it("drills the holes counted by hand", () => {
    expect(made.execution.holeCount).toBe(HOLES[name]?.[0]);
  });

  it("reads back to the same text", () => {
    expect(lines.text()).toBe(read(join(folder, name)));
  });
});

test("they are invented, and say so", () => {
  for (const name of names) expect(read(join(folder, name))).toMatch(/INVENTED|ERFUNDEN/i);
});

test("places worked out by macro, rotation, shift and call are those worked out by hand", () => {
  const at = (name: string): (readonly (number | null)[])[] => {
    const { execution } = reviewed(name).made;
    return Array.from({ length: execution.holeCount }, (_, i) =>
      execution.hole(i).at.map((v) => (v === null ? null : Math.round(v * 1000) / 1000 + 0)),
    );
  };
  // 35 mm at 15° from X60 Y40: 33.807 and 9.059. The inner circle begins at 0°.
  expect(at("bolt-circle.nc")[0]).toEqual([93.807, 49.059]);
  expect(at("bolt-circle.nc")[8]).toEqual([80, 40]);
  // 20 mm at 30° and at 120° from X50 Y50; G52 moves the zero, and the coordinates read as written.
  expect(at("turned.nc")).toEqual([
    [67.321, 60],
    [40, 67.321],
    [20, 20],
    [40, 20],
  ]);
  expect(at("called-file.nc")).toEqual([
    [20, 20],
    [40, 20],
    [60, 20],
    [60, 50],
  ]);
  expect(at("repeats.nc").map(([x]) => x)).toEqual([10, 35, 60, 10, 35]);
});
