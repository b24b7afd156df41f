/** What stands in for a part of the review that failed, so that the rest can still be shown. */
import type { Blocks } from "../../grammar/blocks.ts";
import type { HoleLoads } from "../loads/types.ts";
import type { Execution, Hole, HoleShape, ModalState } from "../program/types.ts";
import type { ResolvedSetup } from "../setup/types.ts";

const START: ModalState = {
  motion: null,
  cycle: 0,
  plane: 17,
  distance: 90,
  feedMode: 94,
  units: null,
  returnMode: null,
  wcs: "G54",
  comp: 40,
  lengthOffset: { code: 49, h: null },
  speedMode: 97,
  tool: null,
  staged: null,
  s: null,
  f: null,
  sWhy: null,
  fWhy: null,
  unsure: [],
  unsureWhy: null,
  spindle: "stopped",
  coolant: [],
  from: {
    s: 0,
    f: 0,
    spindle: 0,
    coolant: 0,
    tool: 0,
    lengthOffset: 0,
    feedMode: 0,
    units: 0,
    r: 0,
    z: 0,
    q: 0,
    p: 0,
    cycle: 0,
    wcs: 0,
    returnMode: 0,
    repeat: 0,
  },
};

/** A program of which nothing was executed: no steps, no holes. */
export function emptyExecution(blocks: Blocks, setup: ResolvedSetup): Execution {
  return {
    blocks,
    setup,
    units: null,
    stepCount: 0,
    stepBlock: () => 0,
    stepState: () => START,
    stepZ: () => null,
    stepOf: () => -1,
    motions: () => [],
    operations: [],
    shapes: [],
    holeCount: 0,
    hole(index): Hole {
      throw new RangeError(`no hole ${index}`);
    },
    shapeOf(index): HoleShape {
      throw new RangeError(`no hole ${index}`);
    },
    places: { x: new Float64Array(0), y: new Float64Array(0) },
    ways: [],
    frameOf: () => null,
    holesOfBlock: () => [],
    events: [],
    callsOf: () => [],
    tool: () => null,
    toolComment: () => null,
    notes: [],
    noteMaterial: null,
    lostEntries: [],
    wanted: [],
    skips: false,
  };
}

/** Loads of which nothing is known. */
export function unknownLoads(shape: HoleShape, why: string): HoleLoads {
  const names = ["tool", "n", "f", "fz", "vf", "vc", "mrr", "feedTimeMin", "depthRatio", "torque", "power", "thrust"];
  return {
    shape,
    tool: null,
    material: null,
    n: null,
    f: null,
    fz: null,
    vf: null,
    vc: null,
    mrr: null,
    feedTimeMin: null,
    depthRatio: null,
    torque: null,
    power: null,
    thrust: null,
    peakTorque: null,
    limits: { torque: null, power: { continuous: null, shortTime: null }, thrust: null, rpm: null },
    coolant: { kinds: [], pressure: null, flow: null, leadSeconds: null },
    engagement: null,
    window: null,
    pointLength: null,
    walk: null,
    unknown: Object.fromEntries(names.map((name) => [name, why])),
    derive: () => null,
  };
}
