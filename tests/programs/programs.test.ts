/** Full programs in the styles that are met in shops: no false error, each finding marked in the file, holes counted by hand. */
import { join } from "node:path";
import { describe, expect, it, test } from "vitest";
import { expectedFindings, unlike } from "../../examples/expected.mjs";
import { type Blocks, ITEM, VALUE } from "../../grammar/blocks.ts";
import { publicPlace } from "../../server/review/places.ts";
import { folder, names, reviewed, textOf } from "./programs.ts";

/** Holes by hand: how many, and where the number comes from. */
const HOLES: Readonly<Record<string, readonly [count: number, why: string]>> = {
  "after-end.nc": [26, "three clusters of three, the same drilled and a row of four, four by places at the end"],
  "bolt-circle.nc": [12, "8 on the outer circle, 4 on the inner"],
  "bolt-while.nc": [49, "12 + 6 + 5 spotted and drilled, every second one of six tapped"],
  "called-file.nc": [4, "one here, three in the called file"],
  "family.nc": [3, "size 2 has three holes"],
  "flange-family.nc": [44, "4, 6 + 2 and 8 + 2, spotted and drilled"],
  "grid-repeats.nc": [104, "4 × 7, 3 × 5 and 6, spotted and drilled, the six tapped"],
  "hand-pecks.nc": [10, "four spotted and drilled, one drilled and reamed"],
  "job-inch.nc": [6, "three and three back"],
  "kept-size.nc": [3, "both ways of the condition: the first, the one that may be left out, the last"],
  "local-call.nc": [8, "four places, two tools"],
  "lower-case.nc": [3, "three positions"],
  "lower-ends.nc": [20, "eight spotted, six drilled, four tapped, two by the loop"],
  "mixed-ends.nc": [2, "two positions"],
  "modal-macro.nc": [27, "six pairs spotted and drilled, three in two depths"],
  "old-plain.nc": [3, "three positions"],
  "open-comment.nc": [2, "two positions"],
  "posted-stations.nc": [75, "8 spotted, 6 drilled, 6 tapped, 2 drilled, 2 reamed and 1 bored, on three stations"],
  "posted.nc": [18, "six places, three tools"],
  "repeats.nc": [5, "three by P3 2000, two by L2"],
  "rigid.nc": [4, "two drilled, two tapped"],
  "row-g91.nc": [10, "1 + 4, the next row 1 + 4"],
  "shop-inch.nc": [43, "12 + 3 spotted, 12 drilled and tapped, three drilled, one of them opened"],
  "structured-plate.nc": [42, "5 × 4 without corners and a row of five, spotted and drilled"],
  "structured.nc": [5, "four in the loop, one behind it"],
  "switch-levels.nc": [32, "six and two turned, in two systems, spotted and drilled"],
  "switch.nc": [4, "two, and two more with the switches off"],
  "systems.nc": [4, "two in each system"],
  "through.nc": [2, "two positions"],
  "turn-centre.nc": [1, "the centre"],
  "turn-flange.nc": [15, "spotted, drilled and tapped in the centre, six drilled and tapped at the face"],
  "turned.nc": [4, "two turned, two shifted"],
  "umlaut.nc": [2, "two positions"],
  "written-out.nc": [2, "three pecks and two, each one hole"],
  "wrong-many.nc": [2, "two positions"],
  "wrong-shift.nc": [23, "six spotted, drilled and tapped, three at 12, one drilled and reamed"],
};

/** The line of a block, put together from its items and the gaps between them, which are white space. */
function itemByItem(blocks: Blocks, block: number): string {
  const text = blocks.textOf(block);
  const first = blocks.firstItem(block);
  let line = "";
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    const [start, end] = [blocks.start(item), blocks.end(item)];
    expect(text.slice(line.length, start)).toMatch(/^[ \t]*$/);
    line += text.slice(line.length, start) + text.slice(start, end);
    expect(line.length).toBe(end);
  }
  expect(text.slice(line.length)).toMatch(/^[ \t]*$/);
  return line + text.slice(line.length);
}

/** The words of a block with a plain number: as they were read, and as the text has them. */
function wordsOf(blocks: Blocks, block: number): (readonly [read: string, written: string])[] {
  const first = blocks.firstItem(block);
  return Array.from({ length: blocks.itemCount(block) }, (_, i) => first + i)
    .filter((item) => blocks.kind(item) !== ITEM.blockDelete)
    .filter((item) => blocks.form(item) === VALUE.integer || blocks.form(item) === VALUE.real)
    .map((item) => {
      const text = blocks.textOf(block).slice(blocks.start(item), blocks.end(item)).replace(/\s/g, "");
      const letter = String.fromCharCode(blocks.kind(item));
      return [letter + blocks.value(item), text.charAt(0).toUpperCase() + Number(text.slice(1))];
    });
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

  const all = Array.from({ length: blocks.count }, (_, line) => blocks.blockAt(line));

  it("reads back to the same text from its lines, and item by item from its blocks", () => {
    expect(lines.text()).toBe(textOf(name));
    expect(all.map((block, line) => itemByItem(blocks, block) + lines.eol(line)).join("")).toBe(textOf(name));
  });

  it("reads each word as it is written", () => {
    const words = all.flatMap((block) => wordsOf(blocks, block));
    expect(words.map(([kept]) => kept)).toEqual(words.map(([, written]) => written));
    expect(words.length).toBeGreaterThan(25);
  });
});

test("they are invented, and say so", () => {
  for (const name of names) expect(textOf(name)).toMatch(/INVENTED|ERFUNDEN/i);
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
  // 65 mm at 15° from X100 Y100; the third circle ends at 260°: 85·cos and 85·sin.
  expect(at("bolt-while.nc")[0]).toEqual([162.785, 116.823]);
  expect(at("bolt-while.nc")[22]).toEqual([85.24, 16.291]);
  // The middle circle begins at 0°, and every second of six is 120° on.
  expect(at("bolt-while.nc").slice(46)).toEqual([
    [145, 100],
    [77.5, 138.971],
    [77.5, 61.029],
  ]);
  // Size 2: six on 45 mm from X200 Y70, dowels at 30° and 210°: 45·cos 30° is 38.971.
  expect(at("flange-family.nc").slice(10, 12)).toEqual([
    [238.971, 92.5],
    [161.029, 47.5],
  ]);
  // The third slanted row begins at X160 + 2·9, and the stair ends 5 steps of 12 and 6 on.
  expect(at("grid-repeats.nc").slice(38, 40)).toEqual([
    [178, 51],
    [194, 51],
  ]);
  expect(at("grid-repeats.nc")[103]).toEqual([80, 150]);
  // 20 mm at 45° and at 225° from X150 Y50: 14.142.
  expect(at("switch-levels.nc").slice(6, 8)).toEqual([
    [164.142, 64.142],
    [135.858, 35.858],
  ]);
  // A cluster moves on by 40: 16 − 8 + 32, and back by the 16 of its own.
  expect(at("after-end.nc").slice(0, 4)).toEqual([
    [20, 20],
    [36, 20],
    [28, 36],
    [60, 20],
  ]);
  expect(at("repeats.nc").map(([x]) => x)).toEqual([10, 35, 60, 10, 35]);
});
