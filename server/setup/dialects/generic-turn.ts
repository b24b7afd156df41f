/**
 * What turning centres have in common when they drill: X as a diameter, feed per revolution, T with its offset, cycles
 * along Z at the face and along X at the side. Common practice, no single source. The turning codes that most such
 * controls use (`turn-A`); the others inherit this and write `machineKind: turn-B`.
 */
import type { Dialect } from "../dialect.ts";
import { genericMill } from "./generic-mill.ts";

export const genericTurn: Dialect = {
  ...genericMill,
  name: "generic-turn",
  machineKind: "turn-A",
  // Q of a peck is a whole number of micrometres; with a point it is a length.
  qUnit: "micrometre",
  startFeedMode: "per-rev",
  startPlane: "G18",
  cycles: new Map([
    [700, "turning"],
    [710, "turning"],
    [720, "turning"],
    [730, "turning"],
    [740, "face-peck"],
    [750, "turning"],
    [760, "turning"],
    [810, "drill"],
    [820, "dwell-drill"],
    [830, "peck"],
    [840, "tap"],
    [850, "bore"],
    [870, "peck"],
    [880, "tap"],
    [890, "bore"],
  ]),
  peckWithoutQ: "drill",
  // A position on some controls, the way from the initial level on others: read as a position, and told once.
  cycleR: "undeclared",
  repeatLetters: "K",
  planeInCycle: "reuse",
  // The offset comes with T.
  tloWord: "auto",
  hEqualsT: "advisory",
  m6StopsSpindle: false,
  m6StopsCoolant: false,
  m6RetractsZ: false,
  spindleCoolant: new Map(),
  wcsCodes: new Set(["G54"] as const),
  diameterX: true,
  incrementalWords: true,
  toolWord: "tool-offset",
  toolLoadedBy: "T",
};
