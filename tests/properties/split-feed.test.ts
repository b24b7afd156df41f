/** Whatever program a split of the feed is offered in, it drills the same holes afterwards. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { readBlocks } from "../../grammar/read.ts";
import { splitFeed } from "../../server/review/fixes/split-feed.ts";
import { review } from "../../server/review/review.ts";
import type { Review } from "../../server/review/types.ts";
import { decode } from "../../server/text/decode.ts";
import { LineStore } from "../../server/text/lines.ts";
import { names, reviewed, textOf } from "../programs/programs.ts";
import { approach, program, reviewText } from "../unit/checks/shop.ts";
import { applied, expectSameHoles, interrupted } from "../unit/review/written-out.ts";

const examples = join(import.meta.dirname, "..", "..", "examples");
const read = (path: string): string => decode(readFileSync(path)).text;
const sources = new Map(
  ["swarfline.yaml", "tools/knee.csv"].map((name) => [join(examples, name), read(join(examples, name))]),
);

interface Shop {
  readonly name: string;
  readonly text: string;
  review(text: string): Review;
}

const shops: readonly Shop[] = [
  ...readdirSync(examples)
    .filter((name) => name.endsWith(".nc"))
    .map((name) => ({
      name,
      text: read(join(examples, name)),
      review(text: string) {
        const lines = LineStore.from(text);
        const setupFile = join(examples, "swarfline.yaml");
        return review({ program: join(examples, name), lines, blocks: readBlocks(lines), sources, setupFile });
      },
    })),
  ...names.map((name) => ({
    name,
    text: textOf(name),
    review: (text: string) => reviewed(name, text).made,
  })),
];

/** Every offer in a text, each held against what the machine does with and without it. */
function offersHold(text: string, reviewOf: (text: string) => Review): number {
  const before = reviewOf(text);
  let offers = 0;
  for (const finding of interrupted(before)) {
    const fix = splitFeed(before, finding);
    if (!fix.offered) {
      expect(fix.why).not.toMatch(/fault in Swarfline/);
      continue;
    }
    offers++;
    const touched = new Set(fix.edits.map(({ line }) => line));
    const edited = applied(text, fix.edits);
    // Lines that are not named stay to the letter.
    const kept = text.split(/(?<=\n)/).filter((_, line) => !touched.has(line));
    let from = 0;
    for (const line of kept) {
      from = edited.indexOf(line, from);
      expect(from).toBeGreaterThanOrEqual(0);
      from += line.length;
    }
    expectSameHoles(before, reviewOf(edited));
  }
  return offers;
}

const asTheyAre = new Map<string, number>();

test.each(shops)("$name as it is", ({ name, text, review: reviewOf }) => {
  const offers = offersHold(text, reviewOf);
  asTheyAre.set(name, offers);
  expect(offers).toBeLessThanOrEqual(interrupted(reviewOf(text)).length);
});

test("an example with an inclined face is among them", () => {
  expect(asTheyAre.get("bracket-incline.nc")).toBe(1);
});

const NOTES = [
  "(CUT ENTRY INCLINE 8 DEG)",
  "(CUT ENTRY INCLINE 30 DEG)",
  "(CUT ENTRY RIDGE FLANK 10 DEG OFFSET 0.)",
  "(CUT EXIT INCLINE 10 DEG)",
  "(CUT ENTRY SKIN)",
  "(CUT ENTRY EDGE AREA 80 PCT)",
];

test("programs of shops with entries noted in them", () => {
  let offers = 0;
  const noted = fc.record({
    shop: fc.constantFrom(...shops),
    note: fc.constantFrom(...NOTES),
    every: fc.integer({ min: 1, max: 4 }),
    factor: fc.constantFrom(1, 2),
  });
  fc.assert(
    fc.property(noted, ({ shop, note, every, factor }) => {
      const { execution } = shop.review(shop.text);
      const lines = shop.text.split("\n");
      const drilled = new Set<number>();
      for (let i = 0; i < execution.holeCount; i += every)
        drilled.add(execution.blocks.lineOf(execution.hole(i).block));
      const text = lines.map((line, i) => {
        const feed = line.replace(/\bF(\d+)\.?(?=\s|$)/g, (_, f: string) => `F${Number(f) * factor}.`);
        return drilled.has(i) && !line.includes("(") ? feed.replace(/\r?$/, (end) => ` ${note}${end}`) : feed;
      });
      offers += offersHold(text.join("\n"), shop.review);
    }),
    { numRuns: 120, seed: 4 },
  );
  expect(offers).toBeGreaterThan(15);
});

const position = fc.record({
  x: fc.integer({ min: 1, max: 9 }),
  note: fc.option(fc.constantFrom(...NOTES.slice(0, 4)), { nil: "" }),
  level: fc.constantFrom("", "G98", "G99"),
  depth: fc.constantFrom("", "", "", "Z-30.", "Z-55."),
  feed: fc.constantFrom("", "", "", "F150.", "F260."),
  other: fc.constantFrom("", "", "", "M8", "G81", "S1900"),
});

test("runs of every making", () => {
  let offers = 0;
  fc.assert(
    fc.property(
      fc.array(position, { minLength: 1, maxLength: 6 }),
      fc.constantFrom("", NOTES[0] ?? ""),
      fc.constantFrom("G80 M9", "G0 Z80.", "G80 G0 Z80.", "G83 X400. Q8.", "G80\nZ80."),
      fc.constantFrom("\n", "\r\n"),
      (positions, note, end, eol) => {
        const run = positions.map(({ x, note, level, depth, feed, other }, i) =>
          [level, other, `X${40 * x + i}.`, depth, feed, note].filter((word) => word !== "").join(" "),
        );
        const body = [note, "G99 G81 X0. Z-40. R8. F200.", ...run, end].filter((line) => line !== "");
        const text = program(...approach(7, 2000), ...body, "G0 X0. Y0. Z80.").replaceAll("\n", eol);
        offers += offersHold(text, (of) => reviewText(of).review);
      },
    ),
    { numRuns: 60, seed: 4 },
  );
  expect(offers).toBeGreaterThan(25);
});
