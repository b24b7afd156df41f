import { describe, expect, test } from "vitest";
import { genericMill, nist } from "../../../server/setup/dialects/index.ts";
import type { StockSolid, Vec3 } from "../../../server/setup/types.ts";
import { drill, events, holes, moves, run, setup, workpiece } from "./helpers.ts";

const HEAD = "G21 G90 G54 T1 M6\nS1000 M3 F100.\nG0 X0 Y0 Z50.\n";
const TOOLS = [drill(1, 5), drill(2, 10)];

/** Two work systems 100 apart in X, and one that nobody declared. */
const offsets = new Map<string, Vec3>([
  ["G54", [10, 20, -300]],
  ["G55", [110, 20, -300]],
]);
const declared = setup({ workpiece: workpiece({ workOffsets: offsets }) }, TOOLS);
const bored = (text: string, s = declared) =>
  run(text, { setup: s }).shapes.map((shape) => shape.bored.map((b) => b.toZ));
const last = (text: string, s = declared) => moves(run(text, { setup: s })).at(-1);

describe("work systems", () => {
  test("one place of the part by two names is one axis line where both offsets are declared", () => {
    // G55 stands 100 further in X: its X-90 is X10 of G54.
    const text = `${HEAD}G81 X10. Y5. Z-8. R2.\nG80\nT2 M6\nS1000 M3\nG55 G81 X-90. Y5. Z-20. R2.\nM30`;
    expect(bored(text)).toEqual([[], [-8]]);
  });

  test("and the depth is counted in the system that drills", () => {
    // G55 lies 10 higher than G54, so Z-8 of G54 is Z-18 of it.
    const s = setup(
      {
        workpiece: workpiece({
          workOffsets: new Map<string, Vec3>([
            ["G54", [0, 0, 0]],
            ["G55", [0, 0, 10]],
          ]),
        }),
      },
      TOOLS,
    );
    const text = `${HEAD}G81 X10. Y5. Z-8. R2.\nG80\nT2 M6\nS1000 M3\nG55 G81 X10. Y5. Z-30. R2.\nM30`;
    expect(bored(text, s)).toEqual([[], [-18]]);
  });

  test("equal numbers in two systems are two places", () => {
    const text = `${HEAD}G81 X10. Y5. Z-8. R2.\nG80\nT2 M6\nS1000 M3\nG55 G81 X10. Y5. Z-20. R2.\nM30`;
    expect(bored(text)).toEqual([[], []]);
    expect(run(text, { setup: declared }).shapes.map((shape) => shape.wcs)).toEqual(["G54", "G55"]);
  });

  test("with an offset not declared nothing is taken for the same", () => {
    const text = `${HEAD}G81 X10. Y5. Z-8. R2.\nG80\nT2 M6\nS1000 M3\nG56 G81 X10. Y5. Z-20. R2.\nM30`;
    expect(bored(text)).toEqual([[], []]);
  });

  test("G10 L2 in the program tells the offsets too", () => {
    // P3 = G56 at X50: its X-40 is X0 of G54, which stands at 10.
    const text = `G21\nG10 L2 P3 X50. Y20. Z-300.\n${HEAD}G81 X0 Y5. Z-8. R2.\nG80\nT2 M6\nS1000 M3\nG56 G81 X-40. Y5. Z-20. R2.\nM30`;
    expect(bored(text)).toEqual([[], [-8]]);
  });

  test("G54.1 P: a system of its own, declared by its name", () => {
    const s = setup(
      {
        workpiece: workpiece({
          workOffsets: new Map<string, Vec3>([
            ["G54", [0, 0, 0]],
            ["G54.1 P7", [100, 0, 0]],
          ]),
        }),
      },
      TOOLS,
    );
    const text = `${HEAD}G81 X10. Y5. Z-8. R2.\nG80\nT2 M6\nS1000 M3\nG54.1 P7 G81 X-90. Y5. Z-20. R2.\nM30`;
    expect(bored(text, s)).toEqual([[], [-8]]);
    expect(run(text, { setup: s }).shapes[1]?.wcs).toBe("G54.1 P7");
  });

  test("a further system by an unknown number is never taken for the same twice, and never named NaN", () => {
    const text = `${HEAD}G54.1 P#600 G81 X10. Y5. Z-8. R2.\nG80\nT2 M6\nS1000 M3\nG54.1 P#600 G81 X10. Y5. Z-20. R2.\nM30`;
    expect(bored(text)).toEqual([[], []]);
    expect(run(text, { setup: declared }).shapes.map((shape) => shape.wcs)).toEqual(["G54.1 P?", "G54.1 P?"]);
  });

  test("G54.1 without P is an error", () => {
    expect(events(run(`${HEAD}G54.1 G0 X1. Y1.`))).toContain("dialect:g54.1-p:error");
  });

  test("G52 shifts inside a system, and the same place is found under it", () => {
    const text = `${HEAD}G81 X10. Y5. Z-8. R2.\nG80\nG52 X7. Y0 Z0\nT2 M6\nS1000 M3\nG81 X3. Y5. Z-20. R2.\nM30`;
    expect(bored(text)).toEqual([[], [-8]]);
  });

  test("G92 at an unknown place: apart from before, together after", () => {
    const text =
      "G21 G90 G54 T1 M6\nS1000 M3 F100.\nG43 H1 Z50.\nG81 X10. Y5. Z-8. R2.\nG80\nG28 X0 Y0\nG92 X0 Y0\n" +
      "G81 X10. Y5. Z-8. R2.\nG80\nT2 M6\nS1000 M3\nG43 H2 Z50.\nG81 X10. Y5. Z-20. R2.\nM30";
    expect(bored(text)).toEqual([[], [], [-8]]);
  });
});

describe("machine positions", () => {
  const HEAD = "G21 G90 G10 L2 P1 X10. Y20. Z-300.\nG54 T1 M6\nS1000 M3 F100.\nG0 X0 Y0 Z50.\n";

  test("are unknown where only the setup says how the systems stand to each other", () => {
    const e = run("G21 G90 G54\nG0 X0 Y0 Z50.\nG53 G0 X150. Y0 Z0\nG91 G99 G81 Z-5. R-2.", { setup: declared });
    expect(moves(e).slice(1, 2)).toEqual(["R(?,?,?)"]);
    expect(holes(e)[0]).toMatchObject({ at: [null, null] });
    expect(e.shapes[0]?.unknown.startZ).toContain("where G54 lies from machine zero is not known to the program");
  });

  test("G53 in X and Y: machine less offset", () => {
    expect(last(`${HEAD}G53 G0 X0 Y0`)).toBe("R(-10,-20,50)");
  });

  test("G53 under G52 and G92", () => {
    // Machine 0 is work -10; less 7 of G52 it reads -17; G92 called the place X0 of the program X5, which adds 5.
    expect(last(`${HEAD}G52 X7.\nG53 G0 X0`)).toBe("R(-17,0,50)");
    expect(last(`${HEAD}G92 X5.\nG53 G0 X0`)).toBe("R(-5,0,50)");
  });

  test("the length counts in Z as the dialect says", () => {
    // Z0 of the machine is Z300 of G54. With a length of 80 in force the nose is at Z0: the tip reads 220.
    const text = `G21\nG10 L10 P1 R80.\n${HEAD}G43 H1 Z50.\nG53 G0 Z0`;
    expect(last(text)).toBe("R(0,0,220)");
    const dialect = { ...genericMill, g53AndTlo: "uses-tlo" } as const;
    expect(last(text, { ...declared, dialect })).toBe("R(0,0,300)");
  });

  test("G28 goes through its point, then home, which nobody knows", () => {
    const all = moves(run(`${HEAD}G91 G28 X0 Y0 Z10.\nG90 G0 X1. Y2. Z3.`, { setup: declared }));
    expect(all.slice(-3)).toEqual(["R(0,0,60)", "R(?,?,?)", "R(1,2,3)"]);
  });

  test("the point of G28 is turned by G68", () => {
    expect(moves(run(`${HEAD}G68 X0 Y0 R90.\nG90 G28 X10. Y0`, { setup: declared })).slice(-2)).toEqual([
      "R(0,10,50)",
      "R(?,?,50)",
    ]);
  });

  test("an unknown length leaves Z unknown after another unknown length", () => {
    const dialect = { ...genericMill, m6RetractsZ: false };
    const text = "G21 G90 G54 T1 M6\nG43 H1\nG0 X0 Y0 Z50.\nT2 M6\nG43 H2\nX5.";
    expect(last(text, setup({ dialect }))).toBe("R(5,0,?)");
  });
});

describe("G10", () => {
  test("L2 P0 moves all systems: what was read is unknown once, the second time it is a known step", () => {
    const text = `${HEAD}G10 L2 P0 X5.\nG0 Y1.\nX20.\nG10 L2 P0 X8.\nY2.`;
    // X20 under a shift of 5 reads 17 under one of 8.
    expect(moves(run(text, { setup: declared })).slice(-3)).toEqual(["R(?,1,50)", "R(20,1,50)", "R(17,2,50)"]);
  });

  test("L2 P1 under way shifts the reading by the difference", () => {
    // G54 from 10 to 12 in X: X0 reads -2.
    expect(last(`${HEAD}G10 L2 P1 X12.\nG0 Y1.`)).toBe("R(-2,1,50)");
  });

  test("in G91 it adds", () => {
    expect(last(`${HEAD}G91 G10 L2 P1 X2.\nG90 G0 Y1.`)).toBe("R(-2,1,50)");
  });

  test("the report's own language has no P0", () => {
    expect(events(run("G21\nG10 L2 P0 X5.\nM2", { setup: setup({ dialect: nist }) }))).toContain("dialect:g10-p:error");
  });
});

describe("the stock stands still", () => {
  const block: StockSolid = { kind: "box", x: [0, 100], y: [0, 100], z: [-50, 0], cut: [], path: "" };
  const stock = { wcs: "G54", solids: [block], voids: [], skin: null };
  const surface = (text: string, workOffsets: ReadonlyMap<string, Vec3>) =>
    run(text, {
      setup: setup({ workpiece: workpiece({ stock, workOffsets: new Map(workOffsets) }) }, TOOLS),
    }).shapes.map((shape) => [shape.topZ, shape.topDeclared]);

  test("seen from another system it lies where the offsets put it", () => {
    // G55 is 5 higher: the top is at its Z-5.
    const two = new Map<string, Vec3>([
      ["G54", [0, 0, 0]],
      ["G55", [0, 0, 5]],
    ]);
    expect(surface(`${HEAD}G55 G81 X10. Y5. Z-20. R2.\nM30`, two)).toEqual([[-5, true]]);
  });

  test("and by an offset that the program moves", () => {
    const one = new Map<string, Vec3>([["G54", [0, 0, 0]]]);
    expect(surface(`${HEAD}G10 L2 P1 X0 Y0 Z3.\nG81 X10. Y5. Z-20. R2.\nM30`, one)).toEqual([[-3, true]]);
  });

  test("without declared offsets the program's own system is the stock's", () => {
    expect(surface(`${HEAD}G10 L2 P1 X0 Y0 Z3.\nG81 X10. Y5. Z-20. R2.\nM30`, new Map())).toEqual([[0, true]]);
    expect(surface(`${HEAD}G55 G81 X10. Y5. Z-20. R2.\nM30`, new Map())).toEqual([[0, false]]);
  });
});

test("holes turned by G68 meet those drilled unturned at the same place", () => {
  const text = `${HEAD}G81 X0 Y10. Z-8. R2.\nG80\nG68 X0 Y0 R90.\nT2 M6\nS1000 M3\nG81 X10. Y0 Z-20. R2.\nM30`;
  expect(bored(text)).toEqual([[], [-8]]);
  expect(holes(run(text, { setup: declared })).map((hole) => hole.at)).toEqual([
    [0, 10],
    [0, 10],
  ]);
});
