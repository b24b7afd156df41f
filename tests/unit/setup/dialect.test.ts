/** The dialect in the setup file: every key can be written, is said where it is wrong, and is explained. */
import { describe, expect, test } from "vitest";
import { setupProblems } from "../../../server/setup/assist/problems.ts";
import type { Dialect } from "../../../server/setup/dialect.ts";
import { genericMill, genericTurn, nist, readyDialects } from "../../../server/setup/dialects/index.ts";
import { printSetupJson } from "../../../server/setup/print.ts";
import { resolveSetup } from "../../../server/setup/resolve.ts";
import { DIALECT } from "../../../server/setup/schema/dialect.ts";

const text = (machine: string): string =>
  `programs: [{ files: "*.nc", machine: m }]\nmachines:\n  m:\n    ${machine}\n`;

function setupOf(machine: string) {
  const sources = new Map([["swarfline.yaml", text(machine)]]);
  return resolveSetup({ program: "a.nc", setupFile: "swarfline.yaml", sources }).setup;
}

const said = (machine: string): string[] =>
  setupProblems("swarfline.yaml", text(machine)).map((p) => `${p.severity} ${p.message}`);

/** Every key of a dialect with a value that none of the ready ones has, as a person writes it and as it is read. */
const WRITTEN: { readonly [K in Exclude<keyof Dialect, "name">]: readonly [written: string, read: unknown] } = {
  machineKind: ["turn-B", "turn-B"],
  decimalMode: ["least-increment", "least-increment"],
  incrementSystem: ["C", "C"],
  decimalAddresses: ["XYZ", "XYZ"],
  feedWithoutPoint: ["scaled", "scaled"],
  feedIncrements: ["{ mmPerRev: 0.01 }", { mmPerMin: 1, inPerMin: 0.01, mmPerRev: 0.01, inPerRev: 0.0001 }],
  qUnit: ["micrometre", "micrometre"],
  dwellP: ["s", "s"],
  dwellLetters: ["PXS", "PXS"],
  unitsCodes: ["both", "both"],
  defaultUnits: ["inch", "inch"],
  unitsChangeFeed: ["convert", "convert"],
  startFeedMode: ["per-rev", "per-rev"],
  startPlane: ["G19", "G19"],
  feedOnModeChange: ["per-mode", "per-mode"],
  g93: ["seconds", "seconds"],
  semicolonComments: ["false", false],
  parenComments: ["false", false],
  blockDelete: ["any-position", "any-position"],
  repeatWord: ["error", "error"],
  maxMPerBlock: ["1", 1],
  lineLength: ["80", 80],
  nDigits: ["4", 4],
  oDigits: ["4", 4],
  forbiddenLetters: ["E", "E"],
  programNumbers: ["false", false],
  nestedComments: ["error", "error"],
  openComment: ["error", "error"],
  mTiming: ["all-before", "all-before"],
  tM6SameBlock: ["loads-previous", "loads-previous"],
  assign: ["parallel", "parallel"],
  cycleGroupSeparate: ["false", false],
  afterG80: ["none", "none"],
  startMotion: ["G1", "G1"],
  bareMotionCode: ["error", "error"],
  unusedWords: ["error", "error"],
  cycles: ["{ G83: none, G183: peck }", new Map([...genericMill.cycles].filter(([c]) => c !== 830)).set(1830, "peck")],
  cycleDataScope: ["same-code", "same-code"],
  stickyKind: ["number", "number"],
  pRequired: ["true", true],
  peckWithoutQ: ["drill", "drill"],
  cycleR: ["from-initial", "from-initial"],
  initialLevel: ["before-block", "before-block"],
  g91RReference: ["current-z", "current-z"],
  repeatLetters: ["K", "K"],
  repeatZero: ["error", "error"],
  cycleWithoutXy: ["store", "store"],
  planeInCycle: ["reuse", "reuse"],
  peckRetract: ["clear", "clear"],
  peckClearance: ["0.05 in", 1.27],
  chipBreakRetract: ["0.5", 0.5],
  g76Shift: ["Q-X", "Q-X"],
  returnDefault: ["G99", "G99"],
  g28Axes: ["all", "all"],
  g28Bare: ["nothing", "nothing"],
  g53InG91: ["error", "error"],
  g53AndTlo: ["uses-tlo", "uses-tlo"],
  rapidPath: ["linear", "linear"],
  tloWord: ["D", "D"],
  tloApply: ["immediate", "immediate"],
  hEqualsT: ["off", "off"],
  m6StopsSpindle: ["false", false],
  m6StopsCoolant: ["false", false],
  m0StopsCoolant: ["true", true],
  endStopsSpindle: ["true", true],
  m6CancelsTlo: ["true", true],
  m6RetractsZ: ["false", false],
  coolantOn: [
    "{ M07: none, M50: through }",
    new Map([
      ["M8", "flood"],
      ["M50", "through"],
    ]),
  ],
  coolantOff: ["[M51]", new Set(["M9", "M51"])],
  spindleCoolant: [
    "{ M33: { direction: ccw, coolant: M8 } }",
    new Map([...genericMill.spindleCoolant, ["M33", { direction: "ccw", coolant: "M8" }]]),
  ],
  tapNeedsSpindle: ["true", true],
  rigidTap: ["codes", "codes"],
  wcsCodes: ["[G54, G154]", new Set(["G54", "G154"])],
  g10Forms: ["L2", new Set(["L2"])],
  subCallForm: ["PkkkNnnn", "PkkkNnnn"],
  maxNesting: ["{ sub: 4 }", { macro: 4, sub: 4 }],
  macroDialect: ["o-word", "o-word"],
  maxLoopSteps: ["5000", 5000],
  customG: ["{ G187: smoothing }", new Map([[1870, "smoothing"]])],
  customM: ["{ M020: ignore }", new Map([[20, "ignore"]])],
  unknownCode: ["ignore", "ignore"],
  fix: ["floor", "floor"],
  logic: ["logical", "logical"],
  andPrecedence: ["add", "add"],
  programEnd: ["required", "required"],
  endCodes: ["[M30, M99]", new Set(["M30", "M99"])],
  diameterX: ["true", true],
  incrementalWords: ["true", true],
  toolWord: ["tool-offset", "tool-offset"],
  toolLoadedBy: ["T", "T"],
  liveSpindle: [
    "{ M133: cw, M135: stop }",
    new Map([
      ["M133", "cw"],
      ["M135", "stop"],
    ]),
  ],
  stockTop: ["3", 3],
  stockBottom: ["-25", -25],
  clearanceMin: ["1", 1],
  clampHeight: ["30", 30],
  travel: ["{ x: 500, z: 18 in }", { x: 500, y: null, z: expect.closeTo(457.2, 9) }],
  toolCount: ["24", 24],
  minRpm: ["60", 60],
};

test.each(Object.entries(WRITTEN))("%s can be written and is read", (key, [written, read]) => {
  const machine = `dialect: { inherit: generic-mill, ${key}: ${written} }`;
  expect(said(machine)).toEqual([]);
  const { dialect } = setupOf(machine);
  expect(dialect.name).toBe("generic-mill, changed");
  expect(dialect[key as keyof Dialect]).toEqual(read);
  expect(genericMill[key as keyof Dialect]).not.toEqual(read);
});

test("every key is explained, with its values", () => {
  if (DIALECT.kind !== "record") throw new Error("a dialect is a record");
  for (const [key, schema] of Object.entries(DIALECT.keys)) {
    expect(schema.description, key).toMatch(/^[A-Z`].*\.$/);
    expect(schema.description.length, key).toBeLessThan(160);
    if (schema.kind === "choice")
      for (const [value, words] of Object.entries(schema.values)) expect(words, `${key} ${value}`).not.toBe("");
  }
});

describe("what is wrong is said at its key", () => {
  const dialect = (keys: string): string => `dialect: { inherit: generic-mill, ${keys} }`;
  test.each([
    ["dwellP: seconds", /dwellP: expected one of s, ms, undeclared, got "seconds"/],
    ["g10Forms: [L2, L3]", /g10Forms.*expected one of L2, L20, L10, L11, L12, L13, L50, got "L3"/],
    ["wcsCodes: [G55]", /wcsCodes.*expected one of G54, G54\.1, G59\.1, G110, G154, got "G55"/],
    ["maxNesting: 4", /maxNesting: expected levels of calls: a map with macro, sub, got 4/],
    ["maxNesting: { macros: 4 }", /maxNesting.*macros.*macro\b/],
    ["customM: { X20: ignore }", /customM.*expected an M code such as M88/],
    ["liveSpindle: { M33: forward }", /liveSpindle\.M33: expected one of cw, ccw, stop, none, got "forward"/],
    ["clearanceMin: -1", /clearanceMin: expected .*0.*-1/],
    ["travel: { x: 50 N }", /travel\.x: .*N/],
    ["toolCount: 0", /toolCount: expected .*1.*0/],
    ["machineKind: lathe", /machineKind: expected one of mill, turn-A, turn-B, got "lathe"/],
  ])("%s", (keys, message) => {
    const found = said(dialect(keys));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(message);
  });
});

describe("which dialect a machine has", () => {
  test.each([
    ["kind: mill", genericMill, "default, generic-mill"],
    ["kind: turn", genericTurn, "default, generic-turn for a turning machine"],
    ["rate: 1", genericMill, "default, generic-mill"],
  ])("%s", (machine, dialect, origin) => {
    const setup = setupOf(machine);
    expect(setup.dialect).toBe(dialect);
    expect(setup.origins.get("dialect")?.text).toBe(origin);
  });

  test("keys of a turning machine that inherits nothing change generic-turn", () => {
    const { dialect } = setupOf("{ kind: turn, dialect: { dwellP: ms } }");
    expect(dialect).toMatchObject({ name: "generic-turn, changed", dwellP: "ms", machineKind: "turn-A" });
  });

  test("a declared dialect holds for a turning machine too", () => {
    expect(setupOf("{ kind: turn, dialect: nist }").dialect).toBe(nist);
  });

  test("all three are there by name", () => {
    expect([...readyDialects.keys()]).toEqual(["nist", "generic-mill", "generic-turn"]);
  });
});

test("what is printed names codes, sets and records as they are written", () => {
  const { values } = printSetupJson(
    setupOf("dialect: { inherit: generic-turn, customM: { M20: ignore }, travel: { x: 300 }, endCodes: [M99] }"),
  );
  const shown = (key: string) => values.find((each) => each.path === `dialect.${key}`)?.shown;
  expect([shown("customM"), shown("travel"), shown("endCodes"), shown("maxNesting"), shown("cycles")]).toEqual([
    "M20 ignore",
    "x 300",
    "M99",
    "macro 4, sub 10",
    expect.stringMatching(/^G70 turning, .*G74 face-peck.*G89 bore$/),
  ]);
  expect(shown("toolCount")).toBeUndefined();
});
