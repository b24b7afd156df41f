/** Random programs with loops, jumps, calls and macros: nothing throws, every run ends, nothing of the text is lost. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { readBlocks } from "../../grammar/read.ts";
import { execute } from "../../server/program/execute.ts";
import { review } from "../../server/review/review.ts";
import { resolveSetup } from "../../server/setup/resolve.ts";
import { LineStore } from "../../server/text/lines.ts";

const { setup } = resolveSetup({ program: "p.nc", setupFile: null, sources: new Map() });
const LIMIT = 20_000;

const variable = fc.constantFrom("#1", "#2", "#26", "#100", "#500", "#[#1+1]", "#5221", "#0");
const number = fc.integer({ min: -40, max: 60 }).map((n) => `${n / 2}${Number.isInteger(n / 2) ? "." : ""}`);
const operator = fc.constantFrom("+", "-", "*", "/", " MOD ", " AND ", " OR ");
const { expression } = fc.letrec<{ expression: string }>((tie) => ({
  expression: fc.oneof(
    { depthSize: "small" },
    number,
    variable,
    fc.tuple(tie("expression"), operator, tie("expression")).map(([a, o, b]) => `[${a}${o}${b}]`),
    tie("expression").map((a) => `FIX[${a}]`),
  ),
}));
const condition = fc
  .tuple(expression, fc.constantFrom("EQ", "NE", "GT", "LT", "GE", "LE"), expression)
  .map(([a, o, b]) => `[${a} ${o} ${b}]`);
const value = fc.oneof(
  number,
  expression.map((e) => (e.startsWith("#") || /^-?\d/.test(e) ? e : `[${e}]`)),
);
const target = fc.constantFrom(10, 20, 30, 40);

const plain = fc.oneof(
  fc.tuple(value, value).map(([x, y]) => `G0 X${x} Y${y}`),
  fc.tuple(value, value).map(([x, z]) => `G99 G81 X${x} Z${z} R2. F100.`),
  fc.tuple(value, value).map(([z, q]) => `G83 Z${z} R2. Q${q}`),
  value.map((x) => `X${x}`),
  value.map((x) => `G91 X${x}`),
  fc.tuple(variable, expression).map(([v, e]) => `${v}=${e}`),
  fc.tuple(condition, variable, expression).map(([c, v, e]) => `IF${c} THEN ${v}=${e}`),
  fc.tuple(condition, target).map(([c, n]) => `IF${c} GOTO ${n}`),
  target.map((n) => `GOTO ${n}`),
  target.map((n) => `N${n}`),
  fc.integer({ min: 0, max: 4 }).map((n) => `M98 P${n} L2`),
  target.map((n) => `M97 P${n}`),
  fc.tuple(fc.integer({ min: 1, max: 4 }), value, value).map(([n, a, z]) => `G65 P${n} A${a} Z${z}`),
  fc.integer({ min: 1, max: 4 }).map((n) => `G66 P${n} A1.`),
  target.map((n) => `M99 P${n}`),
  fc.constantFrom(
    "G80",
    "G90",
    "G67",
    "M99",
    "/M8",
    "/GOTO 10",
    "T1 M6 (8 DRILL)",
    "S900 M3",
    "G43 H1 Z50.",
    "M30",
    "G68 X0 Y0 R30.",
    "G69",
    "G55",
  ),
  fc.constantFrom(
    "o1 if [#1 gt 2]",
    "o1 else",
    "o1 endif",
    "o2 while [#2 lt 3]",
    "o2 endwhile",
    "o3 repeat [2]",
    "o3 endrepeat",
    "o4 sub",
    "o4 endsub",
    "o4 call [1.] [2.]",
    "o2 break",
  ),
);

const { body } = fc.letrec<{ body: string[] }>((tie) => ({
  body: fc.oneof(
    { depthSize: "small", withCrossShrink: true },
    fc.array(plain, { maxLength: 6 }),
    fc
      .tuple(fc.integer({ min: 1, max: 3 }), condition, tie("body"), tie("body"))
      .map(([n, c, inside, behind]) => [`WHILE${c} DO${n}`, ...inside, "#1=#1+1", `END${n}`, ...behind]),
    fc.tuple(tie("body"), tie("body")).map(([a, b]) => [...a, ...b]),
  ),
}));

const program = fc
  .tuple(body, fc.array(body, { maxLength: 4 }))
  .map(([main, subs]) => [
    "O100",
    "G21 G90 G54",
    ...main,
    "M30",
    ...subs.flatMap((sub, i) => [`O${i + 1}`, ...sub, "M99"]),
  ]);

test("random programs end, in bounds, without a fault of ours", () => {
  let holes = 0;
  let calls = 0;
  fc.assert(
    fc.property(program, fc.constantFrom("hash-iso" as const, "o-word" as const), (rows, macroDialect) => {
      const text = rows.join("\n");
      const lines = LineStore.from(text);
      const blocks = readBlocks(lines);
      const written = { ...setup, dialect: { ...setup.dialect, macroDialect } };
      const made = execute(blocks, written, { program: "p.nc", mostBlocks: LIMIT });
      expect(made.stepCount).toBeLessThanOrEqual(LIMIT + blocks.count + 1);
      for (let i = 0; i < Math.min(made.holeCount, 200); i++) {
        const hole = made.hole(i);
        if (hole.calls.length > 0) calls++;
        holes++;
        for (const at of hole.at) expect(at === null || Number.isFinite(at)).toBe(true);
        for (const block of hole.calls) expect(blocks.lineOf(block)).toBeGreaterThanOrEqual(0);
      }
      expect(lines.text()).toBe(text);
      for (let line = 0; line < blocks.count; line++) {
        const block = blocks.blockAt(line);
        const first = blocks.firstItem(block);
        const source = lines.line(line);
        let joined = "";
        let at = 0;
        for (let item = first; item < first + blocks.itemCount(block); item++) {
          joined += source.slice(at, blocks.end(item));
          at = blocks.end(item);
        }
        expect(joined + source.slice(at)).toBe(source);
      }
    }),
    { numRuns: 400 },
  );
  expect(holes).toBeGreaterThan(200);
  expect(calls).toBeGreaterThan(10);
}, 120_000);

test("their review says nothing of a fault of ours, with block deletes off and on", () => {
  fc.assert(
    fc.property(program, (rows) => {
      // Endless ones take their time in a whole review: the limit is for the run above.
      const lines = LineStore.from(rows.filter((row) => !/GOTO|M99 P|END|DO|G66|while/.test(row)).join("\n"));
      const made = review({ program: "p.nc", lines, blocks: readBlocks(lines), sources: new Map(), setupFile: null });
      expect(made.findings.filter((finding) => finding.check === "internal")).toEqual([]);
      for (const finding of made.findings) expect(finding.message).not.toMatch(/NaN|undefined|Infinity/);
    }),
    { numRuns: 150 },
  );
}, 120_000);
