import { describe, expect, test } from "vitest";
import { splitFeed } from "../../../server/review/fixes/split-feed.ts";
import { approach, program, reviewText, SHOP } from "../checks/shop.ts";
import { applied, expectSameHoles, interrupted } from "./written-out.ts";

const INCLINE = "(CUT ENTRY INCLINE 30 DEG)";
const HOLE = "G99 G81 X10. Y10. Z-40. R12. F200.";
const mm = (...body: string[]): string => program(...approach(7, 2000), ...body);
const inch = (...body: string[]): string =>
  ["%", "G20 G17 G40 G49 G80 G90 G94 G54", "T7 M6", "G0 X0. Y0. S2000 M3", "G43 H7 Z2. M88", "G4 P3000", ...body]
    .concat("M30", "%")
    .join("\n");

function offered(text: string, setup: string | null = SHOP) {
  const { review } = reviewText(text, setup);
  const [finding] = interrupted(review);
  if (finding === undefined) throw new Error("no interrupted cut was found");
  const fix = splitFeed(review, finding);
  return { review, fix };
}

/** The lines that differ, once it is seen that the machine does the same. */
function written(text: string, setup: string | null = SHOP): string[] {
  const { review, fix } = offered(text, setup);
  if (!fix.offered) throw new Error(fix.why);
  const edited = applied(text, fix.edits);
  expectSameHoles(review, reviewText(edited, setup).review);
  expect(interrupted(reviewText(edited, setup).review)).toEqual([]);
  const old = new Set(text.split(/\r\n|\n/));
  const lines = edited.split(/\r\n|\n/);
  return lines.filter((line, i) => !old.has(line) || (i > 0 && lines[i - 1] === "G99 G0 X10. Y10."));
}

function refused(text: string, setup: string | null = SHOP): string {
  const { fix } = offered(text, setup);
  return fix.offered ? `offered: ${fix.title}` : fix.why;
}

describe("a cycle", () => {
  test("is written out: across, R, slow to full engagement, the rest as before, back", () => {
    expect(written(mm(INCLINE, HOLE, "G80 M9"))).toEqual([
      "G99 G0 X10. Y10.",
      "G0 Z12.",
      "G1 Z-8.6 F100.",
      "Z-40. F200.",
      "G0 Z12.",
    ]);
  });

  test("with G98 goes back to the level before it", () => {
    expect(written(mm(INCLINE, HOLE.replace("G99", "G98"), "X90.", "G80 M9"))).toEqual([
      "G98 G0 X10. Y10.",
      "G0 Z12.",
      "G1 Z-8.6 F100.",
      "Z-40. F200.",
      "G0 Z50.",
      "G0 X90.",
      "G0 Z12.",
      "G1 Z-8.6 F100.",
      "Z-40. F200.",
      "G0 Z50.",
    ]);
  });

  test("in inches is split on five thousandths, by a feed of a tenth", () => {
    expect(written(inch(INCLINE, "G99 G81 X.5 Y.5 Z-1.6 R.5 F8.", "G80 M9"))).toEqual([
      "G99 G0 X.5 Y.5",
      "G0 Z.5",
      "G1 Z-0.335 F3.9",
      "Z-1.6 F8.",
      "G0 Z.5",
    ]);
  });

  test("in G95 gets a feed per turn", () => {
    expect(written(mm("G95", INCLINE, "G99 G81 X10. Y20. Z-40. R12. F0.1", "G80 M9"))).toEqual([
      "G99 G0 X10. Y20.",
      "G0 Z12.",
      "G1 Z-8.6 F0.05",
      "Z-40. F0.1",
      "G0 Z12.",
    ]);
  });

  test("is ended before the hole and begun anew for the positions behind it", () => {
    const text = mm(HOLE, `X90. ${INCLINE}`, "X170.", "X250.", "G80 M9");
    expect(written(text)).toEqual([
      "G80",
      "G0 X90.",
      `G1 Z-8.6 F100. ${INCLINE}`,
      "Z-40. F200.",
      "G0 Z12.",
      "G99 G81 X170. Z-40. R12. F200.",
    ]);
  });

  test("whose last hole goes back to the first level is written out to its end", () => {
    const lines = written(mm(HOLE, `X90. ${INCLINE}`, "X170.", "G98 X250.", "G80 M9"));
    expect(lines.filter((line) => line.includes("G81"))).toEqual([]);
    expect(lines.slice(-3)).toEqual(["G98 G0 X250.", "G1 Z-40. F200.", "G0 Z50."]);
  });

  test("a block behind it that has all its words is left as it is", () => {
    const { fix } = offered(mm(`${HOLE} ${INCLINE}`, "G99 G81 X90. Y10. Z-40. R12. F200.", "X170.", "G80 M9"));
    expect(fix.offered && fix.edits.map(({ line }) => line)).toEqual([6]);
  });

  test("another one that takes over R and Z gets them written", () => {
    const lines = written(mm(`G99 G81 X90. Z-40. R12. F200. ${INCLINE}`, "G83 X170. Q10.", "G80 M9"));
    expect(lines.at(-1)).toBe("G99 G83 X170. Q10. Z-40. R12. F200.");
  });

  test("keeps block number, other codes and comments, each where it acts", () => {
    expect(written(mm(INCLINE, "N50 G99 G81 X10. Y10. Z-40. R12. F200. M88 (HOLE A)", "G80 M9"))).toEqual([
      "N50 G99 G0 X10. Y10. M88 (HOLE A)",
      "G0 Z12.",
      "G1 Z-8.6 F100.",
      "Z-40. F200.",
      "G0 Z12.",
    ]);
  });

  test("is written out as the program is: small letters, no spaces, its line ends, F without a point", () => {
    const low = mm(INCLINE, HOLE, "g80 m9").toLowerCase();
    expect(written(low).slice(0, 4)).toEqual(["g99 g0 x10. y10.", "g0 z12.", "g1 z-8.6 f100.", "z-40. f200."]);
    const packed = mm(INCLINE, "N5G99G81X10.Y10.Z-40.R12.F200", "G80 M9");
    expect(written(packed)).toEqual(["N5G99G0X10.Y10.", "G0Z12.", "G1Z-8.6F100", "Z-40.F200", "G0Z12."]);
    const crlf = mm(INCLINE, HOLE, "G80 M9").replaceAll("\n", "\r\n");
    expect(written(crlf)).toHaveLength(5);
  });

  test("slow at the exit gives back its feed to what comes later", () => {
    const text = mm("(CUT EXIT INCLINE 30 DEG)", HOLE.replace("R12.", "R2."), "G80", "G81 X100. Z-40. R2.", "G80 M9");
    expect(written(text)).toEqual(["G99 G0 X10. Y10.", "G0 Z2.", "G1 Z-23.9 F200.", "Z-40. F100.", "G0 Z2. F200."]);
  });

  test("under block delete elsewhere holds for both programs", () => {
    expect(written(mm(INCLINE, "/M1", HOLE, "G80 M9"))).toHaveLength(5);
  });
});

describe("an entry that the stock tells", () => {
  const block = "box: { x: [-500, 500], y: [-500, 500], z: [-200, 0] }";
  const setup = SHOP.replace(
    `{ ${block} }`,
    `{ box: { x: [-500, 500], y: [-500, 500], z: [-200, 40] }, face: { incline: 30, towards: x+, through: [10, 10, 0] } }`,
  );

  test("is slow from where it meets metal to where it is whole in it", () => {
    expect(setup).not.toBe(SHOP);
    expect(written(mm(HOLE, "G80 M9"), setup)).toContain("G1 Z-8.6 F100.");
  });
});

describe("a hole that is written out already", () => {
  test("gets one block more", () => {
    expect(written(mm(INCLINE, "G0 X10. Y10.", "G0 Z12.", "G1 Z-40. F200. (DOWN)", "G0 Z50.", "M9"))).toEqual([
      "G1 Z-8.6 F100. (DOWN)",
      "Z-40. F200.",
    ]);
  });

  test("keeps its own changes of feed", () => {
    const text = mm("G0 X10. Y10.", "G0 Z12.", INCLINE, "G1 Z-20. F200.", "Z-38.", "G0 Z50.", "M9");
    expect(written(text)).toEqual(["G1 Z-8.6 F100.", "Z-20. F200."]);
  });

  test("pecked: each stroke is split on its own", () => {
    const text = mm("G0 X10. Y10.", "G0 Z12.", INCLINE, "G1 Z-4. F200.", "G0 Z12.", "G0 Z-3.", "G1 Z-38.", "G0 Z50.");
    expect(written(text)).toEqual(["G1 Z-4. F100.", "G1 Z-8.6 F100.", "Z-38. F200."]);
  });

  test("pecked: a stroke that ends in the zone is slow as a whole", () => {
    const text = mm("G0 X10. Y10.", "G0 Z12.", INCLINE, "G1 Z-8. F200.", "G0 Z12.", "G0 Z-7.5", "G1 Z-38.", "G0 Z50.");
    expect(written(text)).toEqual(["G1 Z-8. F100.", "G1 Z-8.6 F100.", "Z-38. F200."]);
  });

  test("slow at the exit gives back its feed to what comes later", () => {
    const first = ["G0 X10. Y10.", "G0 Z12.", "(CUT EXIT INCLINE 30 DEG)", "G1 Z-40. F200.", "G0 Z50."];
    const text = mm(...first, "(CUT EXIT FLAT)", "G0 X90.", "G0 Z2.", "G1 Z-20.", "G0 Z50.");
    expect(written(text)).toEqual(["G1 Z-23.9 F200.", "Z-40. F100.", "F200."]);
  });
});

describe("in other dialects", () => {
  const dialect = (keys: string): string => SHOP.replace("dialect: generic-mill", `dialect: ${keys}`);
  const end = ["X60.", "G80 M9"];
  const AS_EVER = ["G99 G0 X10. Y10.", "G0 Z12.", "G1 Z-8.6 F100.", "Z-40. F200.", "G0 Z12."];

  test("nist: G80 in a block of its own", () => {
    const start = ["%", "G21 G17 G40 G49 G80 G90 G94 G54", "T7 M6", "G0 X0. Y0. S2000 M3", "G43 H7 Z50. M8"];
    const text = [...start, HOLE, `X60. ${INCLINE}`, "X120.", "G80 M9", "M30", "%"].join("\n");
    const lines = written(text, dialect("nist"));
    expect(lines[0]).toBe("G80");
    expect(lines.at(-1)).toBe("G99 G81 X120. Z-40. R12. F200.");
  });

  test("numbers without a point that are steps get one", () => {
    const start = ["T7 M6", "G0 X0 Y0 S2000 M3", "G43 H7 Z50000 M88", "G4 P3000"];
    const text = program(...start, INCLINE, "G99 G81 X10000 Y10000 Z-40000 R12000 F200", "G80 M9");
    const setup = dialect("{ inherit: generic-mill, decimalMode: least-increment, feedWithoutPoint: scaled }");
    expect(written(text, setup).slice(1, 4)).toEqual(["G0 Z12.", "G1 Z-8.6 F100.", "Z-40. F200"]);
  });

  test("R that counts from the first level becomes a height", () => {
    const text = mm(INCLINE, HOLE.replace("R12.", "R-38."), "G80 M9");
    expect(written(text, dialect("{ inherit: generic-mill, cycleR: from-initial }"))).toEqual(AS_EVER);
  });

  test("a turning centre: a stroke that is written out already", () => {
    const lathe = SHOP.replace("kind: mill\n    dialect: generic-mill", "kind: turn\n    dialect: generic-turn");
    const start = ["%", "G21 G18 G40 G80 G54", "T0707", "G97 S2000 M3", "G0 X0 Z12. M8", INCLINE];
    const text = [...start, "G1 Z-40. F0.1", "G0 Z50. M9", "M30", "%"].join("\n");
    expect(written(text, lathe)).toEqual(["G1 Z-8.6 F0.05", "Z-40. F0.1"]);
  });

  test("a shift in force is that of the new blocks too", () => {
    const text = mm("G52 Z-10.", INCLINE, "G99 G81 X10. Y10. Z-30. R22. F200.", ...end, "G52 Z0.");
    expect(written(text).slice(0, 5)).toEqual([
      "G99 G0 X10. Y10.",
      "G0 Z22.",
      "G1 Z1.4 F100.",
      "Z-30. F200.",
      "G0 Z22.",
    ]);
  });

  test("a rotation in force as well", () => {
    const text = mm("G68 X0. Y0. R30.", INCLINE, HOLE, ...end, "G69");
    expect(written(text).slice(5)).toEqual(["G0 X60.", ...AS_EVER.slice(2)]);
  });
});

describe("nothing is offered, and the reason told", () => {
  const cycle = (line: string): string => mm(INCLINE, line, "G80 M9");
  test.each([
    ["a dwell", cycle("G99 G82 X10. Y10. Z-40. R12. P200 F200."), "the cycle of line 8 dwells at the bottom"],
    ["increments", mm(INCLINE, "G91", "G99 G81 X40. Z-52. R-38. F200. K3", "G90 G80"), /increments \(G91\)/],
    ["a repeat count", cycle("G99 G81 X40. Z-40. R12. F200. K2"), /line 8 drills more than once|more than one block/],
    [
      "a peck cycle",
      cycle("G99 G83 X10. Y10. Z-40. R12. Q30. F200."),
      "the cycle of line 8 does not drill in one stroke",
    ],
    ["a variable", mm("#1=-40.", INCLINE, "G99 G81 X10. Y10. Z#1 R12. F200.", "G80"), /line 9 holds a variable/],
    [
      "a variable before",
      mm("#1=200.", "F#1", INCLINE, "G99 G81 X10. Y10. Z-40. R12.", "G80"),
      /its F is no plain number/,
    ],
    ["a block delete", cycle(`/${HOLE}`), "line 8 has a block delete"],
    [
      "a level that nobody knows",
      mm(INCLINE, HOLE.replace("G99", "G98"), "G80").replace(" Z50.", ""),
      "the level that line 8 returns to is not known",
    ],
    ["exact stop", mm("G61", INCLINE, HOLE, "G80 M9"), "G61 makes the axes stop at the end of each block"],
    ["coolant off behind the hole", cycle(`${HOLE} M9`), "line 8 does more after the hole than go up"],
    [
      "a subprogram",
      mm(INCLINE, "M98 P200").replace("M30\n%", `M30\nO200\n${HOLE}\nG80\nM99\n%`),
      /in a called program/,
    ],
    ["a loop", mm(INCLINE, "#1=0", "WHILE [#1 LT 2] DO1", HOLE, "#1=#1+1", "END1", "G80"), /more than one block/],
    ["full depth", mm("(CUT ENTRY CHAIN PITCH 19.5)", HOLE, "G80"), /one feed is right for the whole hole/],
    [
      "a move by the code before the cycle",
      mm(INCLINE, "G1 X10. F200.", HOLE, "G80", "Z60."),
      /motions would not be the same/,
    ],
  ])("%s", (_, text, why) => {
    expect(refused(text)).toMatch(why);
  });

  test("where another check would speak of the blocks", () => {
    const clamps = SHOP.replace("dialect: generic-mill", "dialect: { inherit: generic-mill, clampHeight: 20 }");
    expect(refused(mm(INCLINE, HOLE, "X60.", "G80 M9"), clamps)).toBe("written out, low-rapid would speak");
  });

  test("exact stop that is over is none", () => {
    expect(refused(mm("G61", "G64", INCLINE, HOLE, "G80 M9"))).toMatch(/^offered/);
  });

  test("too many holes", () => {
    const places = Array.from({ length: 100 }, (_, i) => `X${(i + 1) * 40}.`);
    expect(refused(mm(INCLINE, HOLE, ...places, "G80 M9"))).toBe("more than 100 holes would have to be written out");
  });

  test("a feed that does not stand in the program", () => {
    const { review } = reviewText(mm(INCLINE, HOLE.replace("F200.", ""), "G80 M9"), SHOP, { before: "G94 F200." });
    const [finding] = interrupted(review);
    expect(finding).toBeDefined();
    if (finding !== undefined) expect(splitFeed(review, finding)).toMatchObject({ offered: false });
  });

  test("a feed at which the edge would rub", () => {
    const setup = SHOP.replace(
      "vc: [120, 165, 220], f: [0.06, 0.1, 0.14]",
      "vc: [120, 165, 220], f: [0.04, 0.06, 0.14]",
    );
    expect(setup).not.toBe(SHOP);
    expect(refused(mm(INCLINE, HOLE, "G80 M9"), setup)).toBe("no feed fits this cut");
  });
});

test("the same answer for the same finding, and none of another review", () => {
  const { review, fix } = offered(mm(INCLINE, HOLE, "G80 M9"));
  const [finding] = interrupted(review);
  if (finding === undefined) throw new Error("gone");
  expect(splitFeed(review, finding)).toBe(fix);
});
