/** Power at the cutter. */
import type { Facts } from "../facts.ts";
import { powerOf } from "../power.ts";
import type { Derivation } from "../types.ts";
import { derivation, input, rotationInput } from "./inputs.ts";
import { deriveTorque } from "./torque.ts";

export function derivePower(facts: Facts): Derivation | null {
  const torque = deriveTorque(facts);
  const { n } = facts.speeds;
  if (torque === null || torque.band === null || !n.known) return null;
  const power = powerOf({ known: true, value: torque.band }, n);
  if (!power.known) return null;
  return derivation({
    formula: "cutter-power",
    title: "power at the cutter",
    expression: "P = M · n · 2π / 60000",
    inputs: [input("M", torque.result.value, "torque", "below"), rotationInput(facts, n.value)],
    symbol: "P",
    value: power.value.nominal,
    quantity: "power",
    band: power.value,
    source: torque.source,
    notes: ["at the cutter; the motor gives this over the efficiency"],
    steps: [torque],
  });
}
