/** Sideways walk of the tip in the worst zone, as information: S · L³ / (3 · E · k · π · D⁴ / 64). */
import { BODY_MODULUS, drillWalk } from "../mechanics/peaks.ts";
import type { Facts } from "./facts.ts";
import { finite, unknown } from "./known.ts";
import { kienzleChip } from "./torque.ts";
import type { Known } from "./types.ts";

export function walkOf(facts: Facts): Known<number> {
  const { tool, engagement, speeds } = facts;
  if (!tool.known) return tool;
  if (!engagement.known) return engagement;
  const { LU, DC, family } = tool.value;
  if (LU === null || !(LU > 0)) return unknown(`the usable length LU of T${tool.value.T} is not declared`);
  if (!speeds.f.known) return speeds.f;
  const chip = kienzleChip(tool.value, facts.material, speeds.f.value);
  if (!chip.known) return chip;
  // s = π · S / (kc · f · R)
  const sideForce = (engagement.value.side * chip.value.kc.nominal * speeds.f.value * (DC / 2)) / Math.PI;
  const modulus = family === "solid-carbide" || family === "gun" ? BODY_MODULUS.carbide : BODY_MODULUS.steel;
  return finite(drillWalk(sideForce, LU, DC, modulus), "the walk of the drill");
}
