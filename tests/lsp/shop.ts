/** An invented shop for the protocol tests: a weak spindle, so that a two-insert drill overloads it. */
export const PROGRAM_URI = "file:///shop/parts/plate.nc";
export const SETUP_URI = "file:///shop/swarfline.yaml";

export const SETUP = `units: mm
programs:
  - { files: "parts/*.nc", machine: small, tools: rack, workpiece: plate }
machines:
  small:
    kind: mill
    dialect: generic-mill
    spindle:
      maxRpm: 6000
      continuous: [{ rpm: 0, torque: 12 }, { rpm: 1500, torque: 12 }, { rpm: 6000, power: 2 }]
      drive: belt
    axis: { maxFeed: 5000, rapid: 15000, thrust: 9 kN }
    coolant:
      M8: { kind: flood, pressure: 2 }
      M88: { kind: through, pressure: 20, flow: 20 }
tools:
  rack:
    - { T: 7, family: indexable, DC: 26, SIG: 180, LU: 78, ZEFP: 1, edge: general, coolant: through,
        windows: [{ group: P, vc: [140, 180, 220], f: [0.06, 0.1, 0.14] }] }
workpieces:
  plate: { material: 42CrMo4, hardness: 290 HB }
`;

export const PROGRAM = `%
O1000
G21 G90 G17 G40 G80 G94
T7 M6
G54 G0 X0 Y0 S2200 M3
G43 H7 Z50. M88
G98 G81 X10. Y10. Z-30. R2. F220.
X40.
X70.
G80
G0 Z50. M9
G91 G28 Z0
G90
M30
%
`;

/** Line and column of a text in the program, from 0. */
export function placeOf(text: string, program = PROGRAM): { line: number; character: number } {
  const at = program.indexOf(text);
  if (at < 0) throw new Error(`${text} is not in the program`);
  const before = program.slice(0, at).split("\n");
  return { line: before.length - 1, character: (before.at(-1) ?? "").length };
}

export function rangeOf(text: string, program = PROGRAM) {
  const start = placeOf(text, program);
  return { start, end: { line: start.line, character: start.character + text.length } };
}
