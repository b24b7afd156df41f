/**
 * Thrust in full cut. The handbook form for HSS and spot drills, and as the best there is for solid carbide and spade
 * drills (with the chisel edge their points are ground to); a rule without a chisel edge for two-insert drills, the
 * lips alone for gun drills. Much less sure than torque, and its band says so.
 */
import * as handbook from "../mechanics/handbook.ts";
import * as kienzle from "../mechanics/kienzle.ts";
import { INSERT_THRUST, insertThrust, LIP_THRUST, lipThrust } from "../mechanics/thrust.ts";
import type { HoleShape } from "../program/types.ts";
import type { Tool, WorkMaterial } from "../setup/types.ts";
import { withWearAndSpread } from "./bands.ts";
import { coreDiameter, engagedDiameter } from "./cut.ts";
import { finiteBand, known, unknown } from "./known.ts";
import { type ForceLines, forceLines, type HandbookFactor, handbookFactor } from "./material.ts";
import { chiselRatio, type Fact, rakeAngle } from "./tool-facts.ts";
import { FAMILY_WORDS, type KienzleTorque, kienzleChip } from "./torque.ts";
import type { Band, Known } from "./types.ts";

export interface InsertRule {
  readonly method: "insert";
  readonly forces: ForceLines;
  readonly rake: Fact | null;
  /** kc at h = 0.1 mm with process and rake factor, N/mm². */
  readonly kc: Band;
}

export interface LipRule {
  readonly method: "lips";
  readonly chip: KienzleTorque;
}

export interface HandbookRule {
  readonly method: "handbook";
  readonly factor: HandbookFactor;
  readonly chisel: Fact;
  /** A core has taken the chisel edge. */
  readonly withoutChisel: boolean;
}

export interface FullThrust {
  readonly how: InsertRule | LipRule | HandbookRule;
  readonly diameter: number;
  readonly core: number;
  readonly f: number;
  readonly sharp: Band;
  readonly weak: boolean;
  /** N, wear and spread included. */
  readonly band: Band;
}

interface Sharp {
  readonly how: FullThrust["how"];
  readonly band: Band;
  readonly weak: boolean;
}

/** h at which the two-insert rule takes kc, mm. */
const RULE_CHIP = 0.1;

export function fullThrust(
  shape: HoleShape,
  tool: Tool,
  material: WorkMaterial | null,
  f: Known<number>,
): Known<FullThrust> {
  if (!f.known) return f;
  if (!(f.value > 0)) return unknown("the feed per revolution is zero");
  const diameter = engagedDiameter(shape, tool);
  const core = coreDiameter(shape, tool);
  if (!(diameter > core)) return unknown("the point does not reach the metal");
  const sharp = sharpThrust(tool, material, f.value, diameter, core);
  if (!sharp.known) return sharp;
  const { how, band: sharpBand, weak } = sharp.value;
  const band = finiteBand(withWearAndSpread(sharpBand, { kind: "thrust", weak, packing: 1 }), "the thrust");
  if (!band.known) return band;
  return known({ how, diameter, core, f: f.value, sharp: sharpBand, weak, band: band.value });
}

function sharpThrust(tool: Tool, material: WorkMaterial | null, f: number, D: number, core: number): Known<Sharp> {
  switch (tool.family) {
    case "indexable":
      return byInsertRule(tool, material, f, D, core);
    case "gun":
      return byLips(tool, material, f, D, core);
    case "twist-hss":
    case "spot":
    case "solid-carbide":
    case "spade":
      return byHandbook(tool, material, f, D, core);
    default:
      return unknown(`no method for the thrust of ${FAMILY_WORDS[tool.family]} is built in`);
  }
}

function byInsertRule(tool: Tool, material: WorkMaterial | null, f: number, D: number, core: number): Known<Sharp> {
  const forces = forceLines(material);
  if (!forces.known) return forces;
  const joint = kienzle.jointKc(forces.value.lines, RULE_CHIP);
  const rake = rakeAngle(tool);
  const factor = rake === null ? 1 : kienzle.rakeFactorAt(rake.value, kienzle.baseRake(forces.value.group), RULE_CHIP);
  const kc = { low: joint.low * factor, nominal: joint.nominal * factor, high: joint.high * factor };
  const thrust = (part: "low" | "nominal" | "high") => insertThrust(INSERT_THRUST[part], kc[part], D, f, core);
  return known({
    how: { method: "insert", forces: forces.value, rake, kc },
    band: { low: thrust("low"), nominal: thrust("nominal"), high: thrust("high") },
    weak: forces.value.weak,
  });
}

function byLips(tool: Tool, material: WorkMaterial | null, f: number, D: number, core: number): Known<Sharp> {
  const chip = kienzleChip(tool, material, f);
  if (!chip.known) return chip;
  const { kc, kappa, forces } = chip.value;
  const thrust = (part: "low" | "nominal" | "high") => lipThrust(LIP_THRUST[part], kc[part], D, f, kappa.value, core);
  return known({
    how: { method: "lips", chip: chip.value },
    band: { low: thrust("low"), nominal: thrust("nominal"), high: thrust("high") },
    weak: forces.weak,
  });
}

function byHandbook(tool: Tool, material: WorkMaterial | null, f: number, D: number, core: number): Known<Sharp> {
  const factor = handbookFactor(material);
  if (!factor.known) return factor;
  const chisel = chiselRatio(tool);
  const cut = { DC: D, f, chiselRatio: chisel.value, wear: 1 };
  const withoutChisel = core > chisel.value * D;
  const kd = factor.value.thrust;
  const thrust = withoutChisel ? handbook.handbookThrustFromCore(kd, cut, core) : handbook.handbookThrust(kd, cut);
  return known({
    how: { method: "handbook", factor: factor.value, chisel, withoutChisel },
    band: { low: thrust, nominal: thrust, high: thrust },
    weak: factor.value.weak,
  });
}
