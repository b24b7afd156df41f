/** Look-ups of labels against looking through the whole text, and what they cost in long programs. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { labelsOf } from "../../../server/program/labels.ts";
import { LineStore } from "../../../server/text/lines.ts";

const LINES = ["N1", "N2 G0 X1.", "O7", "O8", "o1 if [1]", "o1 elseif [1]", "o1 else", "o1 endif", "o2 if [1]", "G0"];
const LOOPS = ["DO1", "WHILE[1]DO2", "END1", "END2"];

const labels = (rows: readonly string[]) => labelsOf(readBlocks(LineStore.from(rows.join("\n"))));
const matches = (rows: readonly string[], pattern: RegExp, from: number, end: number) =>
  rows.flatMap((row, line) => (line >= from && line < end && pattern.test(row) ? [line] : []));

describe("a look-up says what looking through the text says", () => {
  const text = fc.array(fc.constantFrom(...LINES), { minLength: 1, maxLength: 30 });

  test("for N numbers within their program, and for programs", () => {
    fc.assert(
      fc.property(text, fc.nat(29), (rows, nat) => {
        const line = nat % rows.length;
        const blocks = readBlocks(LineStore.from(rows.join("\n")));
        const found = labelsOf(blocks);
        const starts = matches(rows, /^O/, 0, rows.length);
        const first = starts.filter((start) => start <= line).at(-1) ?? 0;
        const end = starts.find((start) => start > line) ?? rows.length;
        for (const n of [1, 2]) {
          const all = matches(rows, new RegExp(`^N${n}`), first, end);
          const to = all.find((at) => at > line) ?? all[0] ?? -1;
          expect(found.sequence(n, line)).toBe(to < 0 ? -1 : blocks.blockAt(to));
          expect(found.countOf(n, line)).toBe(all.length);
        }
        for (const n of [7, 8]) {
          const [start = -1, ...more] = matches(rows, new RegExp(`^O${n}`), 0, rows.length);
          expect(found.program(n)).toBe(start < 0 ? -1 : blocks.blockAt(start));
          expect(found.answer(`programs|${n}`)).toBe(start < 0 ? 0 : more.length + 1);
        }
      }),
      { numRuns: 400 },
    );
  });

  test("for partners of structured statements", () => {
    fc.assert(
      fc.property(text, fc.nat(29), (rows, nat) => {
        const line = nat % rows.length;
        const blocks = readBlocks(LineStore.from(rows.join("\n")));
        const found = labelsOf(blocks);
        const all = matches(rows, /^o1 (elseif|else|endif)/, 0, rows.length);
        const ahead = all.find((at) => at > line);
        expect(found.partner("1", line, ["elseif", "else", "endif"])).toBe(
          ahead === undefined ? -1 : blocks.blockAt(ahead),
        );
        const back = matches(rows, /^o1 if/, 0, line).at(-1);
        expect(found.partner("1", line, ["if"], true)).toBe(back === undefined ? -1 : blocks.blockAt(back));
      }),
      { numRuns: 400 },
    );
  });

  test("for jumps into loops", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom("G0", ...LOOPS), { minLength: 2, maxLength: 24 }), (rows) => {
        const blocks = readBlocks(LineStore.from(rows.join("\n")));
        const found = labelsOf(blocks);
        const loops = rows.flatMap((_, to) => {
          const begin = found.beginOf(blocks.blockAt(to));
          return begin < 0 ? [] : [{ from: blocks.lineOf(begin), to }];
        });
        for (let from = 0; from < rows.length; from++)
          for (let to = 0; to < rows.length; to++)
            expect(found.entersLoop(from, to)).toBe(
              loops.some((loop) => to > loop.from && to <= loop.to && (from < loop.from || from > loop.to)),
            );
      }),
      { numRuns: 200 },
    );
  });
});

describe("many look-ups cost the same in long lists", () => {
  /** ms of this process: other work on the machine does not count. */
  const cpu = () => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  };
  const n = 40_000;
  const cases: [
    name: string,
    row: (i: number) => string,
    ask: (of: ReturnType<typeof labels>, line: number) => void,
  ][] = [
    ["of one N number", () => "N1", (of, line) => [of.sequence(1, line), of.countOf(1, line)]],
    ["of one name", (i) => (i < n / 2 ? "o1 if [1]" : "o1 endif"), (of, line) => of.partner("1", line, ["endif"])],
    ["of programs", (i) => `O${i + 1}`, (of, line) => [of.program(line + 1), of.extent(line)]],
    ["of loops", (i) => (i % 2 === 0 ? "DO1" : "END1"), (of, line) => of.entersLoop(0, line)],
  ];
  test.each(cases)("%s", (_, row, ask) => {
    const found = labels(Array.from({ length: n }, (_each, i) => row(i)));
    const began = cpu();
    for (let i = 0; i < 20_000; i++) ask(found, (i * 7919) % n);
    // Looking through the list each time took seconds.
    expect(cpu() - began).toBeLessThan(500);
  });

  test("of loops that are not ended", () => {
    const began = cpu();
    const { faults } = labels(Array.from({ length: n }, (_, i) => (i < n / 2 ? "DO1" : "END2")));
    expect(faults.length).toBeGreaterThan(n);
    expect(cpu() - began).toBeLessThan(3000);
  });
});
