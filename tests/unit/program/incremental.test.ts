import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readBlocks } from "../../../grammar/read.ts";
import { execute } from "../../../server/program/execute.ts";
import { Result } from "../../../server/program/result.ts";
import type { Execution } from "../../../server/program/types.ts";
import { genericMill } from "../../../server/setup/dialects/index.ts";
import { LineStore } from "../../../server/text/lines.ts";
import { drill, setup } from "./helpers.ts";

/** Everything an execution says, with lines instead of block ids so that two readings compare. */
function picture(e: Execution): unknown {
  const line = (block: number) => e.blocks.lineOf(block);
  const place = (ref: number) => {
    const span = ref === 0 ? null : e.blocks.spanOf(ref);
    return span === null ? null : [line(span.block), span.start, span.end];
  };
  const state = (s: Execution["shapes"][number]["state"]) => ({
    ...s,
    from: Object.fromEntries(Object.entries(s.from).map(([name, ref]) => [name, place(ref)])),
  });
  // Frames and shapes are numbered by lineage: only which holes share one is the same.
  const number = new Map(e.shapes.map((s, i) => [s.id, i]));
  const frames = [...new Set(e.shapes.map((s) => s.frame))];
  return {
    steps: Array.from({ length: e.stepCount }, (_, i) => [line(e.stepBlock(i)), state(e.stepState(i)), e.stepZ(i)]),
    shapes: e.shapes.map((s) => ({
      ...s,
      id: number.get(s.id),
      frame: frames.indexOf(s.frame),
      state: state(s.state),
      strokes: s.strokes.map(({ own, ...k }) => ({
        ...k,
        fRef: place(k.fRef),
        own: own && { state: state(own.state), block: line(own.block), zRef: place(own.zRef) },
      })),
      refs: Object.fromEntries(Object.entries(s.refs).map(([name, ref]) => [name, place(ref)])),
      entry: s.entry && { ...s.entry, span: s.entry.span && { ...s.entry.span, block: line(s.entry.span.block) } },
    })),
    holes: Array.from({ length: e.holeCount }, (_, i) => {
      const h = e.hole(i);
      return [number.get(h.shape.id), h.at, line(h.block), h.calls.map(line), Array.from(e.holesOfBlock(h.block))];
    }),
    operations: e.operations.map((o) => ({
      ...o,
      shapes: o.shapes.map((use) => ({ ...use, shape: number.get(use.shape.id) })),
      coolantLeads: o.coolantLeads.map((lead) => ({ ...lead, block: line(lead.block), ref: place(lead.ref) })),
      firstBlock: line(o.firstBlock),
      lastBlock: line(o.lastBlock),
    })),
    events: e.events.map((v) => ({ ...v, calls: v.calls.map(line), span: { ...v.span, block: line(v.span.block) } })),
    motions: [...e.motions()].map((m) => [m.kind, line(m.block), m.x, m.y, m.z, m.seconds, m.state.f, m.state.s]),
    lost: e.lostEntries,
    ways: Array.from({ length: e.holeCount }, (_, i) => e.ways[i] ?? 0),
  };
}

const LINES = [
  "T1 M6",
  "T2 M6 (8.5 MM DRILL)",
  "T3 M6",
  "G43 H1 Z50.",
  "G43 H2 Z50.",
  "S1200 M3",
  "S800",
  "F120.",
  "M8",
  "M9",
  "M5",
  "M4 S700",
  "G99 G81 X1. Y1. Z-10. R2. F100.",
  "G98 G83 Z-20. R2. Q4.",
  "X10.",
  "Y5.",
  "X1. Y1.",
  "X3. Z-12.",
  "G80",
  "G0 Z20.",
  "G0 X1. Y1.",
  "G1 Z-5. F90.",
  "G0 Z2.",
  "Z-4.",
  "G1 Z-9.",
  "G91 X5. L2",
  "G90",
  "G55",
  "G54",
  "G20",
  "G21",
  "(CUT ENTRY INCLINE 20 DEG)",
  "G4 P500",
  "#1=5",
  "X#1",
  "#1=#1+1.",
  "IF[#1LT12]GOTO77",
  "IF[#600EQ1]GOTO77",
  "IF[#600EQ1]GOTO76",
  "GOTO77",
  "N76",
  "IF[#600EQ1]THEN G91",
  "#5=#4003",
  "G#5",
  "M#600",
  "N77",
  "WHILE[#1LT9]DO1",
  "END1",
  "M98 P8 L2",
  "M98 P8 L#600",
  "G91 X5. L#600",
  "G65 P9 A3. L#600",
  "G65 P9 A3.",
  "o1 if [#1 gt 3]",
  "o1 endif",
  "G66 P9 A1.",
  "X6. M98 P8",
  "G67",
  "G52 X5.",
  "X1 X2",
  "(note)",
  "",
  "/M8",
  "/X7.",
  "/N77 G80",
  "/M98 P8",
  "X3. / Y9.",
  "G18",
  "G17",
  "M30",
];

const program = fc.array(fc.constantFrom(...LINES.slice(0, -1)), { minLength: 0, maxLength: 30 });

describe("an execution that goes on from an earlier one", () => {
  // Long enough that checkpoints lie before, in and after the edit.
  const bulk = (seed: number) =>
    Array.from({ length: 900 }, (_, i) =>
      i % 45 === 0
        ? `G99 G81 X${(i * seed) % 97}. Y1. Z-${5 + (i % 7)}. R2. F100.`
        : `X${(i * seed) % 89}. Y${i % 13}.`,
    );

  test("says the same as one from scratch", () => {
    const tools = [drill(1, 8), drill(3, 10)];
    const written = (["hash-iso", "hash-iso", "o-word"] as const).map((macroDialect) =>
      setup({ dialect: { ...genericMill, macroDialect } }, tools),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...written),
        program,
        program,
        fc.array(fc.tuple(fc.nat(4000), fc.nat(3), fc.array(fc.constantFrom(...LINES), { maxLength: 3 })), {
          minLength: 1,
          maxLength: 4,
        }),
        (s, a, b, edits) => {
          const text = [
            "G21 G90 G54 G17",
            ...a,
            "T1 M6",
            "G43 H1 Z50. S1000 M3",
            ...bulk(7),
            ...b,
            ...bulk(11),
            "G80",
            "M30",
            "O8",
            "X44.",
            "Y#1",
            "X2. M99",
            "O9",
            "G91 X#1",
            "G90",
            "M99",
          ].join("\n");
          const lines = LineStore.from(text);
          const blocks = readBlocks(lines);
          let e = execute(blocks, s, { program: "part.nc", mostBlocks: 5000 });
          for (const [at, remove, insert] of edits) {
            const startLine = at % lines.count;
            const endLine = Math.min(startLine + remove, lines.count - 1);
            const change = lines.edit({
              startLine,
              startColumn: 0,
              endLine,
              endColumn: 0,
              text: insert.map((l) => `${l}\n`).join(""),
            });
            blocks.update(change);
            e = execute(blocks, s, { program: "part.nc", mostBlocks: 5000, previous: e });
          }
          const fresh = execute(readBlocks(LineStore.from(lines.text())), s, { program: "part.nc", mostBlocks: 5000 });
          expect(picture(e)).toEqual(picture(fresh));
          // The program with its block deletes on goes on from the one with them off.
          const asked = { program: "part.nc", mostBlocks: 5000, deleteOn: true };
          const on = execute(blocks, s, { ...asked, previous: e });
          expect(picture(on)).toEqual(picture(execute(readBlocks(LineStore.from(lines.text())), s, asked)));
        },
      ),
      { numRuns: 30 },
    );
  }, 120_000);

  test("a code between two strokes comes, goes and changes", () => {
    const hole = (x: number, code: string) => [
      `G0 X${x}.`,
      "G0 Z2.",
      "G1 Z-5. F90.",
      code,
      "G1 Z-9.",
      "G0 Z2. M3",
      "M8",
    ];
    const holes = Array.from({ length: 300 }, (_, i) => hole(i, i % 3 === 0 ? "M9" : "S1000")).flat();
    const text = ["G21 G90 G54", "T1 M6", "G43 H1 Z50. S1000 M3 M8", ...holes, "G80", "M30"].join("\n");
    const s = setup({}, [drill(1, 8)]);
    const lines = LineStore.from(text);
    const blocks = readBlocks(lines);
    let e = execute(blocks, s, { program: "part.nc" });
    for (const code of ["M4", "M9", "S900", "M5", "(none)"]) {
      // The code of a hole in the middle.
      const startLine = 3 + 150 * 7 + 3;
      const change = lines.edit({ startLine, startColumn: 0, endLine: startLine + 1, endColumn: 0, text: `${code}\n` });
      blocks.update(change);
      e = execute(blocks, s, { program: "part.nc", previous: e });
      const fresh = execute(readBlocks(LineStore.from(lines.text())), s, { program: "part.nc" });
      expect(picture(e)).toEqual(picture(fresh));
    }
  });

  test("runs only what follows the checkpoint before the edit", () => {
    const text = ["G21 G90 G54 S1000 M3", "G0 Z50.", ...bulk(7), ...bulk(5), ...bulk(3), ...bulk(2), "G80", "M30"].join(
      "\n",
    );
    const lines = LineStore.from(text);
    const blocks = readBlocks(lines);
    let asked = 0;
    const counted = new Proxy(blocks, {
      get(target, name) {
        if (name === "itemCount") asked++;
        const value = Reflect.get(target, name, target) as unknown;
        return typeof value === "function" ? value.bind(target) : value;
      },
    });
    const s = setup();
    const e = execute(counted, s, { program: "p" });
    const whole = asked;
    blocks.update(lines.edit({ startLine: 3500, startColumn: 0, endLine: 3501, endColumn: 0, text: "X7.\n" }));
    asked = 0;
    const again = execute(counted, s, { program: "p", previous: e });
    expect(again.holeCount).toBe(e.holeCount);
    expect(asked).toBeLessThan(whole * 0.4);
  });

  test("a loop that differs in every turn is not compared and kept at every turn", () => {
    const blocks = readBlocks(LineStore.from("G21 S1000 M3\nN10 G0 X1.\n/M8\nGOTO 10\nM30"));
    const s = setup();
    const off = execute(blocks, s, { program: "p" });
    const on = execute(blocks, s, { program: "p", deleteOn: true, previous: off });
    const points = (e: Execution) => (e instanceof Result ? e.parts.points.length : Number.NaN);
    expect(points(on)).toBeLessThan(2 * points(off));
  });

  test("another setup, dialect or start is no ground to go on from", () => {
    const blocks = readBlocks(
      LineStore.from(["G21 G90 S1000 M3", "G0 Z50.", ...bulk(7), ...bulk(5), "M30"].join("\n")),
    );
    const s = setup({}, [drill(1, 8)]);
    const e = execute(blocks, s, { program: "p" });
    const other = execute(blocks, setup({}, [drill(1, 8)]), {
      program: "p",
      before: "M88 F77",
      from: [1, 2, 3],
      previous: e,
    });
    expect([...other.motions()][0]?.state.f).toBe(77);
  });
});

test("no text and no order of words makes it throw or hang", () => {
  const junk = fc.oneof(
    fc.string({ maxLength: 40 }),
    fc.constantFrom(...LINES),
    fc
      .array(
        fc.tuple(
          fc.constantFrom(..."ABCDEFGHIJKLMNOPQRSTUVWXYZ#%/();[]".split("")),
          fc.oneof(
            fc.integer({ min: -99, max: 1000 }).map(String),
            fc.constantFrom("", ".", "-", "[1/0]", "#1", "1e3", "99999999999"),
          ),
        ),
        { maxLength: 8 },
      )
      .map((words) => words.map(([l, v]) => l + v).join(" ")),
  );
  fc.assert(
    fc.property(fc.array(junk, { maxLength: 20 }), (rows) => {
      const e = execute(readBlocks(LineStore.from(rows.join("\n"))), setup(), { program: "x" });
      const text = JSON.stringify([...e.motions()].slice(0, 2000), (_, v) => {
        if (typeof v === "number" && !Number.isFinite(v)) throw new Error("a number that is none came out");
        return v;
      });
      JSON.stringify([e.shapes, e.operations, e.events, e.notes], (_, v) => {
        if (typeof v === "number" && !Number.isFinite(v)) throw new Error("a number that is none came out");
        return v;
      });
      expect(typeof text).toBe("string");
      for (let i = 0; i < Math.min(e.holeCount, 50); i++)
        expect(e.hole(i).at.every((v) => v === null || Number.isFinite(v))).toBe(true);
    }),
    { numRuns: 300 },
  );
}, 60_000);
