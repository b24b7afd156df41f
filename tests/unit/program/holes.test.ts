import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { genericMill } from "../../../server/setup/dialects/index.ts";
import { drill, holes, machine, moves, run, setup, workpiece } from "./helpers.ts";

const HEAD = "G21 G90 G17 G94 G54\nT1 M6\nG0 X0 Y0 S1000 M3\nG43 H1 Z50. M8\n";

interface Job {
  readonly code: 81 | 82 | 83 | 73;
  readonly places: readonly (readonly [number, number])[];
  readonly r: number;
  readonly depth: number;
  readonly pecks: number;
  readonly f: number;
}

const cycleText = (job: Job): string => {
  const z = (job.r - job.depth).toFixed(3);
  const q = (job.depth / job.pecks + 0.001).toFixed(3);
  const more = job.code === 82 ? " P500" : job.code === 81 ? "" : ` Q${q}`;
  const [first, ...rest] = job.places;
  return [
    `G99 G${job.code} X${first?.[0]}. Y${first?.[1]}. Z${z} R${job.r.toFixed(3)}${more} F${job.f}.`,
    ...rest.map(([x, y]) => `X${x}. Y${y}.`),
    "G80",
    "G0 Z50.",
    "M30",
  ].join("\n");
};

/** The same motions as the cycle makes, written out. */
const longText = (job: Job): string => {
  const z = Number((job.r - job.depth).toFixed(3));
  const q = Number((job.depth / job.pecks + 0.001).toFixed(3));
  const r = Number(job.r.toFixed(3));
  const lines: string[] = [];
  for (const [x, y] of job.places) {
    lines.push(`G0 X${x}. Y${y}.`, `Z${r.toFixed(3)}`);
    if (job.code === 83 || job.code === 73) {
      for (let i = 1; r - i * q > z + 1e-7; i++) {
        const d = r - i * q;
        lines.push(`G1 Z${d.toFixed(6)} F${job.f}.`);
        if (job.code === 83) lines.push(`G0 Z${r.toFixed(3)}`, `Z${Math.min(d + 1, r).toFixed(6)}`);
        else lines.push(`G0 Z${Math.min(d + 0.254, r).toFixed(6)}`);
      }
    }
    lines.push(`G1 Z${z.toFixed(3)} F${job.f}.`);
    if (job.code === 82) lines.push("G4 P500");
    lines.push(`G0 Z${r.toFixed(3)}`);
  }
  return [...lines, "G0 Z50.", "M30"].join("\n");
};

const jobs = fc.record<Job>({
  code: fc.constantFrom(81, 82, 83, 73),
  places: fc.array(fc.tuple(fc.integer({ min: -40, max: 40 }), fc.integer({ min: -40, max: 40 })), {
    minLength: 1,
    maxLength: 12,
  }),
  r: fc.integer({ min: 1, max: 8 }),
  depth: fc.integer({ min: 9, max: 60 }),
  pecks: fc.integer({ min: 2, max: 7 }),
  f: fc.integer({ min: 20, max: 900 }),
});

describe("long-hand drilling", () => {
  test("gives the same holes as the cycle that makes the same motions", () => {
    fc.assert(
      fc.property(jobs, (job) => {
        // A first peck that ends in air is no peck to somebody who only sees the motions.
        fc.pre(job.r - job.depth / job.pecks < -0.5);
        const cycle = run(HEAD + cycleText(job));
        const long = run(HEAD + longText(job));
        expect(holes(long)).toEqual(holes(cycle));
        expect(long.shapes.map((s) => [s.surfaceZ, s.surfaceFrom])).toEqual(
          cycle.shapes.map((s) => [s.surfaceZ, s.surfaceFrom]),
        );
      }),
      { numRuns: 150 },
    );
  });

  test("a run of equal holes is one shape", () => {
    const e = run(
      `${HEAD}${longText({
        code: 83,
        places: [
          [0, 0],
          [10, 0],
          [20, 0],
          [30, 5],
        ],
        r: 2,
        depth: 20,
        pecks: 4,
        f: 100,
      })}`,
    );
    expect([e.holeCount, e.shapes.length]).toEqual([4, 1]);
    expect(e.operations[0]?.shapes).toEqual([{ shape: e.shapes[0], count: 4, firstHole: 0 }]);
  });

  const one = (body: string) => holes(run(`${HEAD}${body}\nG0 Z50.\nM30`));

  test.each([
    ["full retracts", "G0 Z2.\nG1 Z-5. F100.\nG0 Z2.\nZ-4.\nG1 Z-10.\nG0 Z2.", "peck"],
    ["small retracts", "G0 Z2.\nG1 Z-5. F100.\nG0 Z-4.5\nG1 Z-10.\nG0 Z2.", "chip-break"],
    ["retracts fed out of the hole", "G0 Z2.\nG1 Z-5. F100.\nZ2. F2000.\nG0 Z-4.\nG1 Z-10. F100.\nG0 Z2.", "peck"],
    ["one of them small", "G0 Z2.\nG1 Z-5. F100.\nG0 Z2.\nZ-4.\nG1 Z-8.\nG0 Z-7.\nG1 Z-12.\nG0 Z2.", "chip-break"],
    ["none", "G0 Z2.\nG1 Z-10. F100.\nG0 Z2.", "drill"],
  ])("%s between strokes: %s", (_, body, kind) => {
    expect(one(body).map((h) => h.kind)).toEqual([kind]);
  });

  test("a feed change on the way down is a second stroke, the same feed in two blocks is one", () => {
    expect(one("G0 Z2.\nG1 Z-5. F50.\nZ-20. F100.\nG0 Z2.")[0]?.strokes).toEqual([
      [2, -5, 0.05, 1000],
      [-5, -20, 0.1, 1000],
    ]);
    expect(one("G0 Z2.\nG1 Z-5. F100.\nZ-20.\nG0 Z2.")[0]?.strokes).toEqual([[2, -20, 0.1, 1000]]);
  });

  test.each([
    ["one over the minutes", "inverse-minutes", 4.5, 90],
    ["in seconds", "seconds", 60 / 4.5, 90],
  ] as const)("F under G93, %s, over the length of the move is the feed", (_, g93, f, rate) => {
    const dialect = { ...genericMill, g93 };
    const timed = run(`${HEAD}G0 Z2.\nG93 G1 Z-18. F${f.toFixed(9)}\nG94 G0 Z50.\nM30`, { dialect });
    expect(holes(timed)[0]?.strokes).toEqual([[2, -18, rate / 1000, 1000]]);
    expect(holes(timed)).toEqual(one(`G0 Z2.\nG1 Z-18. F${rate}`));
  });

  test("the words of a hole that begins with an approach in another feed mode are those of its cut", () => {
    const e = run(`${HEAD}G1 Z2. F2000.\nG93 Z-18. F4.5\nG94 G0 Z50.\nM30`);
    expect(e.shapes.map((shape) => [shape.state.feedMode, shape.strokes[shape.firstCut]?.f])).toEqual([[93, 0.09]]);
  });

  test("an approach by feed is a stroke in air: the first cut is the next one", () => {
    const [hole] = one("G1 Z1. F2000.\nZ-20. F100.\nG0 Z2.");
    expect([hole?.startZ, hole?.strokes.length, hole?.firstCut]).toEqual([50, 2, 1]);
  });

  test.each([
    ["a slot", "G0 Z2.\nG1 Z-3. F100.\nX40. F300.\nG0 Z2."],
    ["a ramp", "G0 Z2.\nG1 X20. Z-3. F100.\nX0.\nG0 Z2."],
    ["a helix", "G0 Z2.\nG3 X0. Y0. Z-3. I5. J0. F300.\nG0 Z2."],
    ["a plunge before an arc", "G0 Z2.\nG1 Z-3. F100.\nG2 X10. Y10. R10. F300.\nG0 Z2."],
    ["positioning by feed above the part", "G1 Z5. F500.\nX40.\nG0 Z50."],
  ])("%s is no hole", (_, body) => {
    expect(one(body)).toEqual([]);
  });

  test("going to the next hole by feed above the part ends the hole", () => {
    expect(one("G0 Z2.\nG1 Z-10. F100.\nZ2. F900.\nX20.\nZ-10. F100.\nG0 Z2.").map((h) => h.at)).toEqual([
      [0, 0],
      [20, 0],
    ]);
  });

  test("any block of a hole finds it", () => {
    const e = run(`${HEAD}G0 Z2.\nG1 Z-5. F100.\nG0 Z2.\nZ-4.\nG1 Z-10.\nG0 Z2.\nX10.\nG1 Z-5.\nG0 Z2.\nM30`);
    const at = (line: number) => Array.from(e.holesOfBlock(e.blocks.blockAt(line)));
    expect([at(5), at(8), at(11), at(6)]).toEqual([[0], [0], [1], []]);
  });
});

describe("one axis line", () => {
  const tools = [drill(1, 3, { family: "spot", SIG: 90 }), drill(2, 8), drill(3, 8), drill(4, 12)];
  const op = (t: number, z: number, code = "G81", more = "") =>
    `T${t} M6\nG0 X10. Y5. S1000 M3\nG43 H${t} Z50.\nG99 ${code} X10. Y5. Z${z} R2.${more} F100.\nG80\n`;
  const HEAD0 = "G21 G90 G54\n";

  test("what other tools took before is listed, largest first", () => {
    const e = run(`${HEAD0}${op(1, -2)}${op(2, -20)}${op(4, -30)}M30`, { setup: setup({}, tools) });
    expect(e.hole(2).shape.bored).toEqual([{ diameter: 8, toZ: -20, tool: 2 }]);
    expect(e.hole(1).shape.bored).toEqual([{ diameter: 3, toZ: -2, tool: 1 }]);
    expect(e.hole(2).shape.firstCut).toBe(0);
  });

  test("a move inside an equal or larger hole to its depth is no cut", () => {
    const e = run(`${HEAD0}${op(4, -30)}${op(2, -30)}${op(3, -40)}M30`, { setup: setup({}, tools) });
    expect(e.hole(1).shape.firstCut).toBe(-1);
    expect([e.hole(2).shape.firstCut, e.hole(2).shape.surfaceZ, e.hole(2).shape.surfaceFrom]).toEqual([
      0,
      -30,
      "previous-hole",
    ]);
  });

  test("pecks that stay in the hole before are no cuts, the first that goes on is", () => {
    const e = run(`${HEAD0}${op(4, -10)}${op(2, -30, "G83", " Q5.")}M30`, { setup: setup({}, tools) });
    const { strokes, firstCut } = e.hole(1).shape;
    expect(strokes[firstCut]?.toZ).toBe(-13);
  });

  test("another work system or rotary position is another line", () => {
    const text = `${HEAD0}${op(4, -30)}G55\n${op(2, -30)}M30`;
    expect(run(text, { setup: setup({}, tools) }).hole(1).shape.bored).toEqual([]);
    const turned = `${HEAD0}${op(4, -30)}G0 A90.\n${op(2, -30)}M30`;
    expect(run(turned, { setup: setup({}, tools) }).hole(1).shape.bored).toEqual([]);
  });

  test("a G92 or G52 shift does not hide the hole", () => {
    const shifted = op(2, -30).replaceAll("X10.", "X0.");
    for (const shift of ["G52 X10.", "G0 X10. Y5.\nG92 X0."]) {
      const e = run(`${HEAD0}${op(4, -30)}${shift}\n${shifted}M30`, { setup: setup({}, tools) });
      expect(e.hole(1).shape.firstCut, shift).toBe(-1);
    }
  });

  test("strokes of one tool at one place are one hole, whatever came between", () => {
    const text = `${HEAD0}T2 M6\nG0 X0. Y0. S1000 M3\nG43 H2 Z50.\nG99 G81 X0. Y0. Z-5. R2. F100.\nX10.\nX0. Z-10.\nX10.\nG80\nM30`;
    const e = run(text, { setup: setup({}, tools) });
    expect(holes(e).map((h) => [h.at, h.kind, h.endZ, h.peck, h.strokes.length])).toEqual([
      [[0, 0], "peck", -10, 7, 2],
      [[10, 0], "peck", -10, 7, 2],
    ]);
    expect(e.shapes.map((s) => s.endZ)).toEqual([-10]);
    expect(e.operations[0]?.shapes.map((s) => s.count)).toEqual([2]);
  });

  test("L repeats in G90 drill the same hole again, in G91 the next one", () => {
    const same = run(`${HEAD0}G0 X0. Y0. Z50. S1000 M3\nG99 G81 X5. Z-5. R2. L3 F100.\nG80\nM30`);
    expect([same.holeCount, same.hole(0).shape.strokes.length]).toEqual([1, 3]);
    const row = run(`${HEAD0}G0 X0. Y0. Z50. S1000 M3\nG99 G81 X5. Z-5. R2. F100.\nG91 X5. L3\nG90 G80\nM30`);
    expect(holes(row).map((h) => h.at[0])).toEqual([5, 10, 15, 20]);
    expect(row.shapes.length).toBe(1);
  });
});

describe("inch and metric", () => {
  test("the same program in both gives the same holes", () => {
    fc.assert(
      fc.property(jobs, (job) => {
        const metric = HEAD + cycleText(job);
        const inch = metric
          .replace("G21", "G20")
          .replace(
            /([XYZRQF])(-?\d+\.?\d*)/g,
            (_, letter: string, n: string) => `${letter}${(Number(n) / 25.4).toFixed(8)}`,
          );
        const a = holes(run(metric));
        const b = holes(run(inch));
        const near = (h: typeof a) =>
          JSON.stringify(h, (_, v) => (typeof v === "number" ? Math.round(v * 1e4) / 1e4 + 0 : v));
        // The clearance of a peck is the machine's own length and the same in both.
        expect(near(b)).toEqual(near(a));
      }),
      { numRuns: 60 },
    );
  });
});

describe("the surface", () => {
  const text = "G21 G90 G54\nT1 M6\nG0 X10. Y10. S1000 M3\nG43 H1 Z50.\nG99 G81 Z-5. R12. F100.\nX40.\nX90.\nG80\nM30";
  const box = { kind: "box", x: [0, 60], y: [0, 20], z: [-20, 10], cut: [], path: "" } as const;

  test("is the top of the declared stock on the hole's line", () => {
    const cut = { through: [40, 0, 10], normal: [1, 0, 1], path: "" } as const;
    const stock = { wcs: "G54", solids: [{ ...box, cut: [cut] }], voids: [], skin: null };
    const e = run(text, { setup: setup({ workpiece: workpiece({ stock }) }) });
    expect([0, 1].map((i) => [e.hole(i).shape.surfaceZ, e.hole(i).shape.surfaceFrom])).toEqual([
      [10, "stock"],
      [10, "stock"],
    ]);
    const slope = run(text.replace("X40.", "X50."), { setup: setup({ workpiece: workpiece({ stock }) }) });
    expect(slope.hole(1).shape.surfaceZ).toBe(0);
  });

  test("is assumed at the dialect's stock top where none is declared", () => {
    const e = run(text);
    expect([e.hole(0).shape.surfaceZ, e.hole(0).shape.surfaceFrom]).toEqual([0, "assumed"]);
  });

  test("is the R plane where the feed begins in it, or where the part must lie above", () => {
    const low = run(text.replace("R12.", "R-1."));
    expect([low.hole(0).shape.surfaceZ, low.hole(0).shape.surfaceFrom, low.hole(0).shape.topZ]).toEqual([
      -1,
      "r-plane",
      0,
    ]);
    const high = run(text.replace("Z-5.", "Z5."));
    expect([high.hole(0).shape.surfaceZ, high.hole(0).shape.surfaceFrom, high.hole(0).shape.firstCut]).toEqual([
      12,
      "r-plane",
      0,
    ]);
  });
});

describe("what cannot be known", () => {
  const at = (text: string) => run(text).hole(0).shape;

  test("a depth from a system variable leaves the hole without depth, and says so", () => {
    const shape = at("G21 G90 G54 G0 X0 Y0 Z50. S1000 M3\nG99 G81 X1. Z[#5003-20] R2. F100.\nG80\nM30");
    expect([shape.startZ, shape.endZ, shape.strokes, shape.firstCut]).toEqual([2, null, [], -1]);
    expect(shape.unknown.endZ).toMatch(/not known/);
  });

  test("without G20 or G21 no length is known", () => {
    const e = run("G90 G54 G0 X0 Y0 Z50. S1000 M3\nG99 G81 X1. Z-5. R2. F100.\nG80\nM30");
    expect([e.hole(0).at, e.hole(0).shape.startZ, e.units]).toEqual([[null, null], null, null]);
    expect(e.hole(0).shape.unknown.startZ).toMatch(/G20 or G21/);
    expect(moves(e)).toContain("F(1,0,-5)");
  });

  test.each([
    ["no S", "G21 G0 Z50. M3", "n", /no S/],
    ["no F", "G21 G0 Z50. S1000 M3", "f", /no F/],
    ["F from before G95", "G21 F100. G0 Z50. S1000 M3\nG95", "f", /since G95/],
    ["a stopped spindle", "G21 F100. G0 Z50. S1000", "f", /stopped/],
  ])("%s", (_, head, field, why) => {
    expect(at(`G90 G54 ${head}\nG99 G81 X1. Y1. Z-5. R2.\nG80\nM30`).unknown[field]).toMatch(why);
  });

  test("an unknown place is null, and never NaN", () => {
    const e = run("G21 G90 G54\nG43 H1 Z50. S1000 M3\nG99 G81 X1. Z-5. R2. F100.\nG80\nM30");
    expect(e.hole(0).at).toEqual([1, null]);
  });

  test("after a call that is not followed, positions are unknown until given anew", () => {
    const e = run("G21 G90 G54 G0 X5. Y5. Z50. S1000 M3\nM98 P1000\nG99 G81 X1. Z-5. R2. F100.\nY2.\nG80\nM30");
    expect(holes(e).map((h) => h.at)).toEqual([
      [1, null],
      [1, 2],
    ]);
    expect(e.events.filter((x) => x.kind === "subprogram").length).toBe(1);
    expect(e.wanted).toEqual([1000]);
  });
});

describe("limits", () => {
  test("a repeat count that nobody means is capped and told", () => {
    const e = run("G21 G90 G54 G0 X0 Y0 Z50. S1000 M3\nG91 G99 G81 X1. Z-7. R-48. L999999 F100.\nG80\nM30");
    expect(e.holeCount).toBe(10_000);
    expect(e.events.some((x) => x.kind === "cycle-word-bad" && String(x.data.text).includes("10000"))).toBe(true);
  });

  test("a peck of nearly nothing does not make a million strokes", () => {
    const e = run("G21 G90 G54 G0 X0 Y0 Z50. S1000 M3\nG99 G83 X1. Z-100. R2. Q0.0001 F100.\nG80\nM30");
    expect(e.holeCount).toBe(0);
    expect(e.events.some((x) => x.kind === "cycle-word-bad")).toBe(true);
  });

  test("the same place many times over stays one hole and quick", () => {
    const many = Array.from({ length: 4000 }, () => "X1.").join("\n");
    const e = run(`G21 G90 G54 G0 X0 Y0 Z50. S1000 M3\nG99 G81 X1. Z-5. R2. F100.\n${many}\nG80\nM30`);
    expect(e.holeCount).toBe(1);
  });
});

describe("time of an operation", () => {
  const text = "G21 G90 G54\nG0 X0 Y0 Z50. S1000 M3\nG43 H0\nG99 G82 X60. Z-10. R50. P2000 F60.\nG80\nM30";
  const axis = (rapid: number | null, maxFeed: number | null = null) =>
    setup({ machine: machine({ axis: { maxFeed, rapid, thrust: null } }) });
  const seconds = (program: string, s = axis(30000)) =>
    run(program, { setup: s, from: [0, 0, 50] }).operations[0]?.seconds;

  test("is rapids, feeds and dwells", () => {
    // 60 mm across at 30 m/min, 60 mm down at 60 mm/min, 2 s, 60 mm up at 30 m/min.
    expect(seconds(text)).toBeCloseTo(0.12 + 60 + 2 + 0.12, 6);
  });

  test("leaves out the way from the tool change, which only the machine knows", () => {
    expect(
      seconds(text.replace("G0 X0 Y0 Z50. S1000 M3\nG43 H0", "T1 M6\nG0 X0 Y0 S1000 M3\nG43 H1 Z50.")),
    ).toBeCloseTo(62.24, 6);
  });

  test("is unknown without a rapid or a feed", () => {
    expect(seconds(text, axis(null))).toBeNull();
    expect(seconds(text.replace(" F60.", ""))).toBeNull();
  });

  test("counts a feed above the machine's as the machine's", () => {
    expect(seconds(text.replace("F60.", "F6000."), axis(30000, 1200))).toBeCloseTo(0.12 + 3 + 2 + 0.12, 6);
  });
});
