/** Each row: a setup, and all problems it gives as `line:column-endLine:endColumn severity message`, counted from 1. */
import { describe, expect, test } from "vitest";
import { setupProblems } from "../../../server/setup/assist/problems.ts";

function said(text: string, uri = "swarfline.yaml"): string[] {
  return setupProblems(uri, text, { checks: ["walk", "spindle-power"] }).map(({ range: r, severity, message }) => {
    return `${r.line + 1}:${r.column + 1}-${r.endLine + 1}:${r.endColumn + 1} ${severity} ${message}`;
  });
}

const machine = (inside: string): string => `machines:\n  vmc: { ${inside} }\n`;
const tool = (inside: string): string => `tools:\n  crib:\n    - { T: 3, family: spade, DC: 30, ${inside} }\n`;
const workpiece = (inside: string): string => `workpieces:\n  b: { ${inside} }\n`;

const rows: readonly (readonly [what: string, text: string, problems: readonly string[]])[] = [
  ["nothing", "", []],
  ["a comment", "# later\n", []],
  ["a word", "hello", ['1:1-1:6 error expected a setup: a map with units, programs, machines, tools ..., got "hello"']],
  ["a list", "- a\n", ["1:1-1:4 error expected a setup: a map with units, programs, machines, tools ..., got a list"]],
  [
    "a section to come",
    "machines:\n",
    ["1:1-1:9 warning machines: expected a map from a machine's name to its value, got nothing yet"],
  ],
  [
    "a wrong kind",
    "machines: [vmc]\n",
    ["1:11-1:16 error machines: expected a map from a machine's name to its value, got a list"],
  ],
  [
    "an unknown section",
    "machine:\n  vmc: {}\n",
    ['1:1-1:8 warning machine: "machine" is no key of a setup; machines?'],
  ],
  [
    "an unknown key",
    machine("axsi: { thrust: 8 kN }"),
    ['2:10-2:14 warning machines.vmc.axsi: "axsi" is no key of a machine; axis?'],
  ],
  [
    "a word for a number",
    machine("spindle: { maxRpm: fast }"),
    ['2:29-2:33 error machines.vmc.spindle.maxRpm: expected a rotational speed in 1/min, got "fast"'],
  ],
  [
    "a wrong unit",
    machine("axis: { thrust: 8 kW }"),
    ['2:26-2:30 error machines.vmc.axis.thrust: "kW" is no unit of a force in N or lbf'],
  ],
  [
    "a number below",
    machine("axis: { rapid: -5 }"),
    ["2:25-2:27 error machines.vmc.axis.rapid: expected a feed rate in mm/min or in/min over 0, got -5"],
  ],
  [
    "a percent without its sign",
    machine("spindle: { efficiency: 87 }"),
    ["2:33-2:35 error machines.vmc.spindle.efficiency: expected a share from 0 to 1 or in %, got 87"],
  ],
  [
    "a feed written as a length",
    tool("entry: { fMin: 0.0015 in }"),
    [
      "3:53-3:62 error tools.crib.T3.entry.fMin: expected a feed per revolution in mm/rev or in/rev, got 0.0015 in: write 0.0015 in/rev",
    ],
  ],
  [
    "feeds of a window in inches alone",
    tool(`windows: [{ group: P, f: ['.003"', 0.005 inch, 0.2 mm] }]`),
    [
      `3:64-3:71 error tools.crib.T3.windows.P.f.min: expected a feed per revolution in mm/rev or in/rev, got .003": write .003 in/rev`,
      `3:73-3:83 error tools.crib.T3.windows.P.f.nominal: expected a feed per revolution in mm/rev or in/rev, got 0.005 inch: write 0.005 in/rev`,
      `3:85-3:91 error tools.crib.T3.windows.P.f.max: expected a feed per revolution in mm/rev or in/rev, got 0.2 mm: write 0.2 mm/rev`,
    ],
  ],
  [
    "a cutting speed in feet alone",
    tool("windows: [{ group: P, vc: [250 ft, 300 sfm, 350 sfm] }]"),
    [
      "3:65-3:71 error tools.crib.T3.windows.P.vc.min: expected a cutting speed in m/min or ft/min, got 250 ft: write 250 ft/min",
    ],
  ],
  [
    "a feed rate in inches alone",
    machine("axis: { maxFeed: 400 in }"),
    [
      "2:27-2:33 error machines.vmc.axis.maxFeed: expected a feed rate in mm/min or in/min, got 400 in: write 400 in/min",
    ],
  ],
  [
    "a flow in litres alone",
    machine("coolant: { M8: { kind: flood, flow: 20 L } }"),
    ["2:46-2:50 error machines.vmc.coolant.M8.flow: expected a flow in L/min or gal/min, got 20 L: write 20 L/min"],
  ],
  [
    "keys that stand further in",
    tool("fMin: 0.04, vc: [70, 90, 110], Heavy: 0.5"),
    [
      '3:38-3:42 warning tools.crib.T3.fMin: "fMin" is no key of a tool; entry.fMin?',
      '3:50-3:52 warning tools.crib.T3.vc: "vc" is no key of a tool; windows[].vc?',
      '3:69-3:74 warning tools.crib.T3.Heavy: "Heavy" is no key of a tool; entry.heavy?',
    ],
  ],
  [
    "a spindle's key in its machine",
    machine("maxRpm: 8000"),
    ['2:10-2:16 warning machines.vmc.maxRpm: "maxRpm" is no key of a machine; spindle.maxRpm?'],
  ],
  ["a lead of a drill", tool("lead: 1.5"), ["3:38-3:42 warning tools.crib.T3.lead: only a tap has a lead: not used"]],
  [
    "a window for a group and a material",
    tool("windows: [{ group: P, material: 42CrMo4, vc: [70, 90, 110] }]"),
    [
      "3:50-3:55 warning tools.crib.T3.windows.42CrMo4.group: expected a group or a material, got both: the material counts",
    ],
  ],
  [
    "a decimal comma",
    tool('SIG: "118,5"'),
    [
      '3:43-3:50 error tools.crib.T3.SIG: ",5" is no unit of an angle in deg; write the decimal point as a point: 118.5',
    ],
  ],
  [
    "an angle over its limit",
    tool("SIG: 240"),
    ["3:43-3:46 error tools.crib.T3.SIG: expected an angle in deg over 0 up to 180°, got 240"],
  ],
  ["a fraction of a flute", tool("NOF: 1.5"), ["3:43-3:46 error tools.crib.T3.NOF: expected a whole number, got 1.5"]],
  [
    "a choice mistyped",
    machine("kind: mil"),
    ['2:16-2:19 error machines.vmc.kind: expected one of mill, turn, got "mil"; mill?'],
  ],
  [
    "part of a choice",
    "tools:\n  crib:\n    - { T: 3, family: carbide, DC: 8 }\n",
    [
      '3:23-3:30 error tools.crib.T3.family: expected one of twist-hss, solid-carbide, indexable, spade, gun, spot, ream, tap, countersink, bore, got "carbide"; solid-carbide?',
    ],
  ],
  [
    "no diameter",
    "tools:\n  crib:\n    - T: 3\n      family: spade\n",
    ["3:7-3:11 error tools.crib.T3: expected a diameter DC, got none: nothing can be calculated for this tool"],
  ],
  [
    "no tool number",
    "tools:\n  crib:\n    - { DC: 3, family: spade }\n",
    ["3:7-3:31 error tools.crib[0]: expected T in a tool, got none"],
  ],
  [
    "no family",
    "tools:\n  crib:\n    - { T: 3, DC: 5 }\n",
    ["3:7-3:22 warning tools.crib.T3: no family declared; taken as twist-hss until it is"],
  ],
  [
    "a tool twice",
    "tools:\n  crib:\n    - { T: 3, DC: 5, family: spade }\n    - { T: 3, DC: 6, family: spade }\n",
    ["4:12-4:13 error tools.crib.T3: stands twice; the one in line 3 counts"],
  ],
  [
    "a window that falls",
    tool("windows: [{ group: P, vc: [90, 70, 110] }]"),
    [
      "3:64-3:77 error tools.crib.T3.windows.P.vc: expected cutting speeds as [min, nominal, max] that do not fall, got a min over the nominal",
    ],
  ],
  [
    "a window of two",
    tool("windows: [{ group: P, f: [0.1, 0.2] }]"),
    ["3:63-3:73 error tools.crib.T3.windows.P.f: expected [min, nominal, max], 3 values, got 2"],
  ],
  [
    "a window for nothing",
    tool("windows: [{ vc: [70, 90, 110] }]"),
    ["3:48-3:69 error tools.crib.T3.windows[0]: expected a group (P, M, K, N, S, H) or a material, got neither"],
  ],
  [
    "a reading that cannot be",
    tool("observed: [{ program: a.nc, operation: 1, load: 5, idle: 6, meter: continuous, wear: new }]"),
    ["3:95-3:96 error tools.crib.T3.observed[0].idle: expected less than the load of 5 %, got 6 %"],
  ],
  [
    "an envelope out of order",
    machine("spindle: { continuous: [{ rpm: 0, torque: 9 }, { rpm: 60, power: 5 }, { rpm: 15, power: 5 }] }"),
    [
      "2:87-2:89 error machines.vmc.spindle.continuous[2].rpm: expected speeds that rise from point to point, got 15 after 60 1/min",
    ],
  ],
  [
    "a point of both",
    machine("spindle: { continuous: [{ rpm: 9, torque: 9, power: 2 }] }"),
    [
      "2:34-2:65 error machines.vmc.spindle.continuous[0]: expected torque or power, got both: write the one the brochure prints",
    ],
  ],
  [
    "a point of neither",
    machine("spindle: { continuous: [{ rpm: 9 }] }"),
    ["2:34-2:44 error machines.vmc.spindle.continuous[0]: expected a torque or a power at this speed, got neither"],
  ],
  [
    "a broken point is said once",
    machine("spindle: { continuous: [{ rpm: 9, power: much }] }"),
    ['2:51-2:55 error machines.vmc.spindle.continuous[0].power: expected a power in kW or hp, got "much"'],
  ],
  [
    "power at standstill",
    machine("spindle: { continuous: [{ rpm: 0, power: 5 }, { rpm: 9, power: 5 }] }"),
    [
      "2:44-2:49 warning machines.vmc.spindle.continuous[0].power: expected a torque at 0 1/min, got a power: a motor gives no power at standstill",
    ],
  ],
  [
    "a coolant code",
    machine("coolant: { X8: { kind: flood } }"),
    ['2:21-2:23 error machines.vmc.coolant: expected an M code such as M88, got "X8"'],
  ],
  [
    "coolant of no kind",
    machine("coolant: { M8: { pressure: 2 } }"),
    ["2:21-2:23 error machines.vmc.coolant.M8: expected kind in a coolant supply, got none"],
  ],
  [
    "an unknown dialect",
    machine("dialect: generic-mil"),
    [
      "2:19-2:30 error machines.vmc.dialect: no dialect generic-mil; ready dialects: nist, generic-mill, generic-turn; generic-mill?",
    ],
  ],
  [
    "a dialect's key",
    machine("dialect: { dwellP: sec }"),
    ['2:29-2:32 error machines.vmc.dialect.dwellP: expected one of s, ms, undeclared, got "sec"'],
  ],
  [
    "a dialect as a list",
    machine("dialect: [nist]"),
    [
      "2:19-2:25 error machines.vmc.dialect: expected a dialect's name, or a dialect: a map with inherit, machineKind, decimalMode, incrementSystem ..., got a list",
    ],
  ],
  [
    "a name that refers to nothing",
    "programs:\n  - files: a.nc\n    machine: vmx\nmachines:\n  vmc: {}\n",
    ["3:14-3:17 error programs[0].machine: no machine vmx; declared: vmc"],
  ],
  [
    "a name with no section",
    "programs:\n  - { files: a.nc, tools: crib }\n",
    ["2:27-2:31 error programs[0].tools: no tool table crib; none is declared under tools:"],
  ],
  [
    "a rule for no file",
    "programs:\n  - machine: vmc\nmachines:\n  vmc: {}\n",
    ["2:5-2:17 error programs[0]: expected files in a program rule, got none"],
  ],
  [
    "an unknown material",
    workpiece("material: 42CrMo"),
    ["2:18-2:24 error workpieces.b.material: no material 42CrMo; 42CrMo4?"],
  ],
  [
    "a bare hardness",
    workpiece("hardness: 290"),
    [
      "2:18-2:21 error workpieces.b.hardness: expected a hardness with its scale, such as 290 HB, 32 HRC, 300 HV, 990 MPa or 140 ksi, got the bare number 290",
    ],
  ],
  [
    "a hardness off its table",
    workpiece("hardness: 75 HRC"),
    ["2:18-2:24 error workpieces.b.hardness: expected 20 to 60 HRC, the range of the conversion table, got 75 HRC"],
  ],
  [
    "a body of neither kind",
    workpiece("stock: { solids: [{ cut: [] }] }"),
    ["2:26-2:37 error workpieces.b.stock.solids[0]: expected one of box, cylinder, plates, got none"],
  ],
  [
    "a box inside out",
    workpiece("stock: { solids: [{ box: { x: [9, 0], y: [0, 8], z: [-4, 0] } }] }"),
    [
      "2:38-2:44 error workpieces.b.stock.solids[0].box.x: expected [from, to] that rises, got 9.00 mm (0.354 in) to 0.00 mm (0.000 in)",
    ],
  ],
  [
    "an entry in other words",
    workpiece('entries: [{ program: a.nc, entry: "SLOPE 30" }]'),
    ["2:42-2:52 error workpieces.b.entries[0].entry: SLOPE ..."],
  ],
  [
    "a cell of practice",
    "practice: { heavy: { spade: never } }\n",
    ['1:29-1:34 error practice.heavy.spade: expected a share from 0 to 1 or in %, or no, got "never"'],
  ],
  [
    "a material by half",
    "materials: { x: { group: K, kc11: 1100 } }\n",
    ["1:29-1:33 warning materials.x.kc11: expected mc beside kc11: one without the other gives no force"],
  ],
  [
    "a severity",
    "severity: { walk: of }\n",
    ['1:19-1:21 error severity.walk: expected one of error, warning, info, off, got "of"; off?'],
  ],
  ["no such check", "severity: { wlak: off }\n", ["1:13-1:17 warning severity.wlak: no check wlak; walk?"]],
  [
    "a key twice",
    "units: mm\nunits: inch\n",
    ['2:1-2:6 error "units" stands twice in this map; the one in line 1 counts'],
  ],
  [
    "a tab",
    "machines:\n\tvmc: {}\nunits: mm\n",
    ["2:1-2:2 error expected spaces before the key, got a tab: YAML does not indent by tabs"],
  ],
  [
    "a bracket left open",
    "machines:\n  vmc: { kind: mill\nunits: mm\n",
    ["2:8-2:9 error this { is not closed: expected } before line 3"],
  ],
  [
    "a second document",
    "units: mm\n---\nunits: inch\n",
    ["2:1-2:1 warning a second document begins here: it is not read"],
  ],
  ["brackets without end", "[".repeat(5000), ["1:41-1:42 error nested deeper than 40 levels: the file is not read"]],
  [
    "an alias of itself",
    "severity: &a { walk: *a }\n",
    [
      "1:22-1:24 error *a stands inside the value that it names",
      "1:16-1:20 warning severity.walk: expected one of error, warning, info, off, got nothing yet",
    ],
  ],
  [
    "an alias of nothing",
    "severity: *a\n",
    [
      "1:11-1:13 error no value is named &a above this line",
      "1:1-1:9 warning severity: expected a map from a check's id to its value, got nothing yet",
    ],
  ],
];

describe("a problem stands at its place and says what was expected", () => {
  test.each(rows)("%s", (_what, text, problems) => {
    // Where another room has the words, a row ends in three points.
    const wanted = problems.map((p) => (p.endsWith(" ...") ? expect.stringContaining(p.slice(0, -4)) : p));
    expect(said(text)).toEqual(wanted);
  });
});

const csvRows: readonly (readonly [what: string, text: string, problems: readonly string[]])[] = [
  ["a good table", "T,family,DC\n3,spade,30\n", []],
  ["nothing", "\n", ["1:1-1:1 error expected a row of column heads (T, family, DC, ...), got an empty file"]],
  ["no heads", "3,spade,30\n", ["1:1-1:11 error expected a row of column heads with T among them, got 3, spade, 30"]],
  [
    "a head mistyped",
    "T,famly,DC\n3,spade,30\n",
    [
      '1:3-1:8 warning "famly" is no column of a tool table; family?',
      "2:1-2:11 warning tools.table.T3: no family declared; taken as twist-hss until it is",
    ],
  ],
  [
    "a bad cell",
    "T,family,DC\n3,spade,thick\n",
    ['2:9-2:14 error tools.table.T3.DC: expected a length in mm or in, got "thick"'],
  ],
  [
    "a bad quoted cell",
    'T,family,DC\n3,"spade","a ""b"""\n',
    ['2:11-2:20 error tools.table.T3.DC: expected a length in mm or in, got "a "b""'],
  ],
  [
    "a cell too many",
    "T,family,DC\n3,spade,30,x\n",
    ["2:12-2:13 warning this cell has no column head: 3 heads, 4 cells"],
  ],
  [
    "a window by half",
    "T,family,DC,windows.P.vc.min\n3,spade,30,70\n",
    [
      "2:12-2:14 warning tools.table.T3.windows.P.vc.nominal: expected a cutting speed in m/min or ft/min, got nothing yet",
      "2:12-2:14 warning tools.table.T3.windows.P.vc.max: expected a cutting speed in m/min or ft/min, got nothing yet",
    ],
  ],
  [
    "a quote left open",
    'T,family,DC\n3,"spade,30\n',
    ["2:3-2:4 error a quote is opened here and never closed: taken as part of the text"],
  ],
];

describe("a tool table in CSV", () => {
  test.each(csvRows)("%s", (_what, text, problems) => {
    expect(said(text, "crib.csv")).toEqual(problems);
  });
});
