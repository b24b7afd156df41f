/**
 * Torque in full cut, one stack of factors per family:
 * two-insert, solid carbide, spade, gun and boring tools by Kienzle with rake; HSS twist and spot drills by the
 * handbook form. Which family takes which is common practice (no source) where no book was made for it: a spade blade
 * cuts with two straight lips, a gun drill and a boring bar with one.
 */
import * as handbook from "../mechanics/handbook.ts";
import * as kienzle from "../mechanics/kienzle.ts";
import { chipPacking } from "../mechanics/peaks.ts";
import type { HoleShape } from "../program/types.ts";
import type { DrillFamily, Tool, WorkMaterial } from "../setup/types.ts";
import { withWearAndSpread } from "./bands.ts";
import { coreDiameter, depthOf, engagedDiameter, unclearedDepth } from "./cut.ts";
import { finiteBand, known, unknown } from "./known.ts";
import { type ForceLines, forceLines, type HandbookFactor, handbookFactor } from "./material.ts";
import { chiselRatio, edgeAngle, effectiveEdges, type Fact, insertBoundary, rakeAngle } from "./tool-facts.ts";
import type { Band, Known } from "./types.ts";

/** Torque of the sharp edge by Kienzle, and what it was made from. */
export interface KienzleTorque {
  readonly method: "kienzle";
  readonly forces: ForceLines;
  readonly edges: Fact;
  /** Degrees. */
  readonly kappa: Fact;
  /** mm */
  readonly h: number;
  readonly rake: Fact | null;
  readonly rakeFactor: number;
  /** With process and rake factor, N/mm². */
  readonly kc: Band;
  readonly belowRange: boolean;
}

export interface HandbookTorque {
  readonly method: "handbook";
  readonly factor: HandbookFactor;
  readonly chisel: Fact;
}

export interface FullTorque {
  readonly how: KienzleTorque | HandbookTorque;
  /** Diameter engaged and core already away, mm. */
  readonly diameter: number;
  readonly core: number;
  /** mm/rev */
  readonly f: number;
  readonly sharp: Band;
  readonly packing: number;
  readonly weak: boolean;
  /** N·m, wear and spread included. */
  readonly band: Band;
}

const HANDBOOK_FAMILIES: ReadonlySet<DrillFamily> = new Set(["twist-hss", "spot"]);
const KIENZLE_FAMILIES: ReadonlySet<DrillFamily> = new Set(["indexable", "solid-carbide", "spade", "gun", "bore"]);

/** Names for reasons and messages. */
export const FAMILY_WORDS: { readonly [F in DrillFamily]: string } = {
  "twist-hss": "HSS twist drills",
  "solid-carbide": "solid carbide drills",
  indexable: "two-insert drills",
  spade: "spade drills",
  gun: "gun drills",
  spot: "spot drills",
  ream: "reamers",
  tap: "taps",
  countersink: "countersinks",
  bore: "boring tools",
};

export function fullTorque(
  shape: HoleShape,
  tool: Tool,
  material: WorkMaterial | null,
  f: Known<number>,
  through: boolean,
): Known<FullTorque> {
  if (!f.known) return f;
  if (!(f.value > 0)) return unknown("the feed per revolution is zero");
  const diameter = engagedDiameter(shape, tool);
  const core = coreDiameter(shape, tool);
  if (!(diameter > core)) return unknown("the point does not reach the metal");
  if (tool.family === "bore" && core === 0)
    return unknown("no bored hole on this axis is known, so the cut is not known");
  const packing = packingOf(shape, tool, through);
  const sharp = HANDBOOK_FAMILIES.has(tool.family)
    ? handbookSharp(tool, material, f.value, diameter, core)
    : KIENZLE_FAMILIES.has(tool.family)
      ? kienzleSharp(tool, material, f.value, diameter, core)
      : unknown(`no method for the torque of ${FAMILY_WORDS[tool.family]} is built in`);
  if (!sharp.known) return sharp;
  const { how, band: sharpBand, weak } = sharp.value;
  const band = finiteBand(withWearAndSpread(sharpBand, { kind: "torque", weak, packing }), "the torque");
  if (!band.known) return band;
  return known({ how, diameter, core, f: f.value, sharp: sharpBand, packing, weak, band: band.value });
}

interface Sharp {
  readonly how: KienzleTorque | HandbookTorque;
  readonly band: Band;
  readonly weak: boolean;
}

function kienzleSharp(tool: Tool, material: WorkMaterial | null, f: number, D: number, core: number): Known<Sharp> {
  const chip = kienzleChip(tool, material, f);
  if (!chip.known) return chip;
  const { kc } = chip.value;
  const torque = (kcValue: number): number => {
    if (tool.family !== "indexable") return kienzle.torqueFromCore(D, core, f, kcValue);
    const r1 = insertBoundary(tool).value;
    return kienzle.insertPairLoad({ DC: D, r1, core, f, kcCentre: kcValue, kcPeripheral: kcValue }).torque;
  };
  const band = { low: torque(kc.low), nominal: torque(kc.nominal), high: torque(kc.high) };
  return known({ how: chip.value, band, weak: chip.value.forces.weak });
}

/** Chip thickness and specific force of the cut with a sharp edge. */
export function kienzleChip(tool: Tool, material: WorkMaterial | null, f: number): Known<KienzleTorque> {
  const forces = forceLines(material);
  if (!forces.known) return forces;
  const edges = effectiveEdges(tool);
  if (!edges.known) return edges;
  const kappa = edgeAngle(tool);
  if (!kappa.known) return kappa;
  const h = kienzle.chipThickness(f, edges.value.value, kappa.value.value);
  if (!(h > 0)) return unknown("the chip thickness is zero");
  const joint = kienzle.jointKc(forces.value.lines, h);
  const rake = rakeAngle(tool);
  const rakeFactor = rake === null ? 1 : kienzle.rakeFactorAt(rake.value, kienzle.baseRake(forces.value.group), h);
  const nominal = joint.nominal * rakeFactor;
  // The mean of one line may differ from that line in the last digit.
  const kc = {
    low: Math.min(nominal, joint.low * rakeFactor),
    nominal,
    high: Math.max(nominal, joint.high * rakeFactor),
  };
  return known({
    method: "kienzle",
    forces: forces.value,
    edges: edges.value,
    kappa: kappa.value,
    h,
    rake,
    rakeFactor,
    kc,
    belowRange: joint.belowRange,
  });
}

function handbookSharp(tool: Tool, material: WorkMaterial | null, f: number, D: number, core: number): Known<Sharp> {
  const factor = handbookFactor(material);
  if (!factor.known) return factor;
  const chisel = chiselRatio(tool);
  const torque = handbook.handbookTorqueFromCore(
    factor.value.torque,
    { DC: D, f, chiselRatio: chisel.value, wear: 1 },
    core,
  );
  return known({
    how: { method: "handbook", factor: factor.value, chisel },
    band: { low: torque, nominal: torque, high: torque },
    weak: factor.value.weak,
  });
}

/** Chips of spot, boring and gun tools have room; a spade clears like a two-insert drill: common practice, no source. */
function packingOf(shape: HoleShape, tool: Tool, through: boolean): number {
  const depth = depthOf(shape);
  if (!depth.known) return 1;
  const ratio = unclearedDepth(shape, depth.value) / tool.DC;
  switch (tool.family) {
    case "twist-hss":
    case "solid-carbide":
    case "indexable":
      return chipPacking(tool.family, ratio, through);
    case "spade":
      return chipPacking("indexable", ratio, through);
    default:
      return 1;
  }
}
