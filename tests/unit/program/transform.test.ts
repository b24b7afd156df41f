import { describe, expect, test } from "vitest";
import { genericMill } from "../../../server/setup/dialects/index.ts";
import { events, holes, moves, run, setup } from "./helpers.ts";

const places = (text: string) => holes(run(text)).map((hole) => hole.at);
const HEAD = "G21 G90 G54 T1 M6\nS1000 M3 F100.\nG0 X0 Y0 Z50.\n";
const at = (text: string) => places(`${HEAD}${text}`);
const depth = (text: string) => holes(run(`${HEAD}${text}`)).map((hole) => [hole.startZ, hole.endZ]);
const why = (text: string, axis: "endZ" | "startZ" = "endZ") => run(`${HEAD}${text}`).shapes[0]?.unknown[axis];

describe("G68 turns the plane", () => {
  test("a quarter turn about zero: (x, y) becomes (-y, x)", () => {
    expect(at("G68 X0 Y0 R90.\nG81 X10. Y0 Z-5. R2.\nX0 Y20.\nG69\nX30. Y5.")).toEqual([
      [0, 10],
      [-20, 0],
      [30, 5],
    ]);
  });

  test("30 degrees about (10, 5)", () => {
    // (30, 5) is 20 to the right of the centre: 20 cos 30 = 17.320508, 20 sin 30 = 10.
    // (10, 25) is 20 above it: -20 sin 30 = -10, 20 cos 30 = 17.320508.
    expect(at("G68 X10. Y5. R30.\nG81 X30. Y5. Z-5. R2.\nX10. Y25.")).toEqual([
      [27.320508, 15],
      [0, 22.320508],
    ]);
  });

  test("the centre is where the tool stands when none is written", () => {
    // About (10, 10) by 180 degrees: (12, 10) goes to (8, 10).
    expect(at("G0 X10. Y10.\nG68 R180.\nG81 X12. Y10. Z-5. R2.")).toEqual([[8, 10]]);
  });

  test("an increment is turned, not moved", () => {
    // From (10, 0) turned 90 degrees about zero: (0, 10); +5 in X of the program is +5 in Y of the part.
    expect(at("G68 X0 Y0 R90.\nG81 X10. Y0 Z-5. R2.\nG91 X5.\nY5.")).toEqual([
      [0, 10],
      [0, 15],
      [-5, 15],
    ]);
  });

  test("repeats in G91 go along the turned direction", () => {
    expect(at("G68 X0 Y0 R90.\nG0 X0 Y0\nG81 X0 Y0 Z-5. R2.\nG91 X4. L3")).toEqual([
      [0, 0],
      [0, 4],
      [0, 8],
      [0, 12],
    ]);
  });

  test("in G91 the angle adds to the one in force: 45 and 45 are a quarter", () => {
    expect(at("G68 X0 Y0 R45.\nG91 G68 X0 Y0 R45.\nG90 G81 X10. Y0 Z-5. R2.")).toEqual([[0, 10]]);
  });

  test("in G90 the angle takes the place of the one in force", () => {
    expect(at("G68 X0 Y0 R45.\nG68 X0 Y0 R90.\nG81 X10. Y0 Z-5. R2.")).toEqual([[0, 10]]);
  });

  test("an axis left out after both were written keeps its number", () => {
    // (10, 0) -> (0, 10); (10, 5) -> (-5, 10).
    expect(at("G68 X0 Y0 R90.\nG81 X10. Y0 Z-5. R2.\nY5.")).toEqual([
      [0, 10],
      [-5, 10],
    ]);
  });

  test("the block of G68 moves nothing, nor does it drill in a cycle", () => {
    const text = `${HEAD}G81 X1. Y1. Z-5. R2.\nG68 X50. Y50. R90.\nX60. Y50.\nG69\nG80\nM30`;
    expect(places(text)).toEqual([
      [1, 1],
      [50, 60],
    ]);
    expect(moves(run(`${HEAD}G68 X50. Y50. R90.\nG0 X60. Y50.`)).filter((m) => m.startsWith("R("))).toEqual([
      "R(?,?,50)".replace("?,?", "0,0"),
      "R(50,60,50)",
    ]);
  });

  test("in G18 it turns Z to X, about the third axis Y", () => {
    // Plane (Z, X): 90 degrees take +Z to +X. Centre Z0 X0: (x 0, z 10) goes to (x 10, z 0).
    expect(moves(run(`${HEAD}G0 Y7.\nG18 G68 X0 Z0 R90.\nG0 X0 Z10.`)).at(-1)).toBe("R(10,7,0)");
  });

  test("a cycle whose axis is turned away has no known depth", () => {
    expect(depth("G18 G68 X0 Z0 R90.\nG17 G81 X5. Y5. Z-5. R2.")).toEqual([[null, null]]);
  });
});

describe("what is not known in G68", () => {
  test("no R: the machine's parameter", () => {
    const execution = run(`${HEAD}G68 X0 Y0\nG81 X10. Y0 Z-5. R2.\nG69\nX20. Y5.`);
    expect(holes(execution).map((hole) => hole.at)).toEqual([
      [null, null],
      [20, 5],
    ]);
    expect(execution.events.find((e) => e.kind === "unknown-value")?.data.what).toBe("the angle of G68");
  });

  test("no centre at an unknown place: increments are known, positions are not", () => {
    const text = "G21 G90 G54\nT1 M6\nS1000 M3 F100.\nG43 H1 Z50.\nG68 R90.\nG81 X10. Y0 Z-5. R2.\nG69\nX20. Y5.";
    expect(places(text)).toEqual([
      [null, null],
      [20, 5],
    ]);
  });

  test("X alone in the first block after G68 away from the centre: controls differ in Y", () => {
    const execution = run(`${HEAD}G0 X10. Y10.\nG68 X0 Y0 R90.\nG81 X20. Z-5. R2.\nX20. Y5.`);
    // The part's Y is the program's X; the part's X is the program's Y, which is 10 or -10.
    expect(holes(execution).map((hole) => hole.at)).toEqual([
      [null, 20],
      [-5, 20],
    ]);
    expect(execution.shapes.length).toBe(1);
    expect(events(execution)).toContain("dialect:transform-first-move:warning");
  });

  test("and X alone, then Y alone, are both written", () => {
    // (20, 5) turned 30 degrees: 20 cos 30 - 5 sin 30 = 14.820508, 20 sin 30 + 5 cos 30 = 14.330127.
    expect(at("G0 X10. Y10.\nG68 X0 Y0 R30.\nG81 X20. Z-5. R2.\nY5.")).toEqual([
      [null, null],
      [14.820508, 14.330127],
    ]);
  });

  test("an increment first after G69 is told, an absolute move makes all known again", () => {
    const execution = run(`${HEAD}G68 X0 Y0 R90.\nG0 X10. Y0\nG69\nG91 G81 X5. Y1. Z-5. R-48.\nG90 X5. Y6.`);
    expect(holes(execution).map((hole) => hole.at)).toEqual([
      [null, null],
      [5, 6],
    ]);
    expect(events(execution)).toContain("dialect:transform-first-move:warning");
  });

  test("straight home after a cancel is no such increment", () => {
    const execution = run(`${HEAD}G68 X0 Y0 R90.\nG0 X10. Y5.\nG69\nG91 G28 X0 Y0\nG90 G0 X1. Y2.`);
    expect(events(execution).filter((e) => e.includes("transform"))).toEqual([]);
    expect(moves(execution).slice(-2)).toEqual(["R(?,?,50)", "R(1,2,50)"]);
  });

  test("I, J, K turn about a line in space: nothing is known until G69", () => {
    expect(at("G68 X0 Y0 Z0 I0 J0 K1. R90.\nG81 X10. Y0 Z-5. R2.\nG69\nG90 X1. Y2. Z-5. R2.")).toEqual([
      [null, null],
      [1, 2],
    ]);
  });
});

describe("G51 scales", () => {
  test("P about a centre: (c + P (x - c))", () => {
    // About (10, 0) by 2 in X and Y: (15, 5) -> (20, 10).
    expect(at("G51 X10. Y0 I2. J2.\nG81 X15. Y5. Z-5. R2.\nG50\nX15. Y5.")).toEqual([
      [20, 10],
      [15, 5],
    ]);
  });

  test("I, J, K leave the depth alone where Z keeps its size", () => {
    expect(depth("G51 X0 Y0 I2. J2. K1.\nG81 X15. Y5. Z-5. R2.")).toEqual([[2, -5]]);
  });

  test("P scales Z too, so the depth of a cycle is not known, and says why", () => {
    expect(depth("G51 X0 Y0 Z0 P2.\nG81 X15. Y5. Z-5. R2.")).toEqual([[null, null]]);
    expect(why("G51 X0 Y0 Z0 P2.\nG81 X15. Y5. Z-5. R2.", "startZ")).toContain("controls differ");
  });

  test("moves in Z are scaled", () => {
    // About Z0 by 0.5: Z10 is at 5.
    expect(moves(run(`${HEAD}G51 X0 Y0 Z0 P0.5\nG0 X8. Y4. Z10.`)).at(-1)).toBe("R(4,2,5)");
  });

  test("a negative factor mirrors", () => {
    expect(at("G51 X0 Y0 I-1. J1.\nG81 X15. Y5. Z-5. R2.")).toEqual([[-15, 5]]);
  });

  test("thousandths without a point are read where the dialect counts so, and not guessed elsewhere", () => {
    const text = `${HEAD}G51 X0 Y0 I-1000 J1000\nG81 X15. Y5. Z-5. R2.`;
    const dialect = { ...genericMill, decimalMode: "least-increment" } as const;
    expect(holes(run(text, { setup: setup({ dialect }) })).map((hole) => hole.at)).toEqual([[-15, 5]]);
    expect(places(text)).toEqual([[null, null]]);
    expect(events(run(text))).toContain("dialect:g51-factor:warning");
  });

  test("neither P nor I, J, K: the machine's parameter, unknown", () => {
    expect(at("G51 X0 Y0\nG81 X15. Y5. Z-5. R2.\nG50\nX1. Y2. Z-5. R2.")).toEqual([
      [null, null],
      [1, 2],
    ]);
  });

  test("values that cannot be known are told as such, not as numbers", () => {
    for (const decimalMode of ["calculator", "least-increment", "undeclared"] as const) {
      const dialect = { ...genericMill, decimalMode };
      const text = `${HEAD}G51 X0 Y0 I#900 J[1/0]\nG68 X#900 Y0 R#900\nG16 X#900 Y#900\nG51.1 X#900\nG0 X1. Y#900`;
      for (const event of run(text, { setup: setup({ dialect }) }).events)
        expect(JSON.stringify(event.data)).not.toMatch(/NaN/);
    }
  });

  test("a factor of zero is an error", () => {
    expect(events(run(`${HEAD}G51 X0 Y0 P0\nG0 X1. Y1.`))).toContain("dialect:g51-zero:error");
  });

  test("G68 while G51 is on: scaled first, turned about the scaled centre", () => {
    // Scale 2 about 0: (15, 0) -> (30, 0); centre (5, 0) -> (10, 0). Quarter turn: 20 right -> 20 up: (10, 20).
    expect(at("G51 X0 Y0 I2. J2.\nG68 X5. Y0 R90.\nG81 X15. Y0 Z-5. R2.")).toEqual([[10, 20]]);
  });
});

describe("G51.1 mirrors", () => {
  test("in X about 10: 2 * 10 - 3 = 17", () => {
    expect(at("G51.1 X10.\nG81 X3. Y4. Z-5. R2.\nG50.1 X0\nX3. Y4.")).toEqual([
      [17, 4],
      [3, 4],
    ]);
  });

  test("axes add up, and G50.1 takes back those it names", () => {
    expect(at("G51.1 X0\nG51.1 Y0\nG81 X3. Y4. Z-5. R2.\nG50.1 X0\nX3. Y4.\nG50.1\nX3. Y4.")).toEqual([
      [-3, -4],
      [3, -4],
      [3, 4],
    ]);
  });

  test("a rotation turns the other way round when mirrored", () => {
    // Turned 90 degrees (10, 0) is (0, 10); turned 30 degrees (8.660254, 5); mirrored in X (-8.660254, 5).
    expect(at("G51.1 X0\nG68 X0 Y0 R30.\nG81 X10. Y0 Z-5. R2.")).toEqual([[-8.660254, 5]]);
  });

  test("arcs run the other way round: a quarter stays a quarter", () => {
    const text = (mirror: string) => `${HEAD}${mirror}G0 X10. Y0\nF600.\nG3 X0 Y10. I-10. J0\nM30`;
    const seconds = (t: string) => [...run(t).motions()].find((m) => m.kind === "arc")?.seconds;
    expect(seconds(text("G51.1 X0\n"))).toBeCloseTo(seconds(text("")) ?? 0, 9);
    expect(events(run(text("G51.1 X0\n"))).filter((e) => e.includes("arc"))).toEqual([]);
  });

  test("no axis is an error", () => {
    expect(events(run(`${HEAD}G51.1\nG0 X1. Y1.`))).toContain("dialect:g51.1-axes:error");
  });
});

describe("G16 polar numbers", () => {
  test("radius and angle about the work zero", () => {
    // 50 at 0, 30 and 90 degrees.
    expect(at("G16 G81 X50. Y0 Z-5. R2.\nY30.\nY90.\nX20.\nG15\nX1. Y2.")).toEqual([
      [50, 0],
      [43.30127, 25],
      [0, 50],
      [0, 20],
      [1, 2],
    ]);
  });

  test("an angle in G91 goes on from the one before at the same radius", () => {
    expect(at("G16 G81 X50. Y30. Z-5. R2.\nG91 Y120.\nY120.")).toEqual([
      [43.30127, 25],
      [-43.30127, 25],
      [0, -50],
    ]);
  });

  test("a radius in G91 counts from where the tool stands", () => {
    expect(at("G0 X10. Y10.\nG16\nG91 G81 X10. Y90. Z-5. R-48.")).toEqual([[10, 20]]);
  });

  test("and a second angle in G91 is read differently by controls, so unknown", () => {
    expect(at("G0 X10. Y10.\nG16\nG91 G81 X10. Y90. Z-5. R-48.\nX10. Y90.")).toEqual([
      [10, 20],
      [null, null],
    ]);
  });

  test("an angle without a radius is not known", () => {
    expect(at("G16 G81 Y30. Z-5. R2.\nX50.")).toEqual([
      [null, null],
      [43.30127, 25],
    ]);
  });

  test("inches scale the radius and not the angle", () => {
    const [hole] = holes(run("G20 G90 G54 T1 M6\nS1000 M3 F10.\nG0 X0 Y0 Z2.\nG16 G81 X2. Y90. Z-0.2 R0.1"));
    expect(hole?.at).toEqual([0, 50.8]);
  });

  test("polar numbers are turned and mirrored like others", () => {
    expect(at("G68 X0 Y0 R60.\nG16 G81 X50. Y30. Z-5. R2.")).toEqual([[0, 50]]);
  });

  test("moves are read so too, and Z alone goes straight down", () => {
    const all = moves(run(`${HEAD}G16 G0 X10. Y180.\nZ5.\nG15`));
    expect(all.slice(-2)).toEqual(["R(-10,0,50)", "R(-10,0,5)"]);
  });
});

describe("told once", () => {
  const told = (text: string) =>
    run(`${HEAD}${text}`)
      .events.filter((e) => e.kind === "dialect" && ["left-in-force", "in-transform"].includes(String(e.data.rule)))
      .map((e) => [e.data.rule, e.span.block - 3, e.data.level]);

  test("in force over a tool change and at the end", () => {
    expect(told("G68 X0 Y0 R30.\nG0 X5. Y5.\nT2 M6\nM30")).toEqual([["left-in-force", 3, "info"]]);
    expect(told("G16\nG0 X5. Y5.\nM30")).toEqual([["left-in-force", 3, "info"]]);
    expect(told("G68 X0 Y0 R30.\nG0 X5. Y5.\nG69\nT2 M6\nM30")).toEqual([]);
  });

  test("with the codes that end them", () => {
    const text = run(`${HEAD}G51.1 X0\nG51 X0 Y0 I2. J2.\nG68 X0 Y0 R30.\nT2 M6\nM30`).events.find(
      (e) => e.data.rule === "left-in-force",
    )?.data.text;
    expect(text).toContain("still in force at the tool change: G51 and G68 and G51.1.");
    expect(text).toContain("Way out: G50 and G69 and G50.1 before it");
  });

  test("a shift while they are in force", () => {
    expect(told("G68 X0 Y0 R30.\nG52 X5.\nG69\nG52 X0\nM30")).toEqual([["in-transform", 2, "info"]]);
  });
});
