/** What the machine can give at the programmed speed. */
import type { Available } from "../../mechanics/envelope.ts";
import type { Facts } from "../facts.ts";
import { COMMON_PRACTICE, setupSource } from "../provenance.ts";
import type { Derivation, Known } from "../types.ts";
import { derivation, input, rotationInput } from "./inputs.ts";

export function deriveLimits(facts: Facts): Derivation | null {
  const { limits } = facts;
  const steady = curve(facts, limits.continuous, "continuous", "continuous");
  const short = curve(facts, limits.shortTime, "shortTime", "short-time");
  if (steady === null) return short;
  return short === null ? steady : { ...steady, steps: [...steady.steps, short] };
}

function curve(facts: Facts, at: Known<Available>, key: "continuous" | "shortTime", words: string): Derivation | null {
  const { n } = facts.speeds;
  const { setup } = facts.setting;
  const machine = setup.machine;
  if (!at.known || !n.known || machine === null || machine.spindle === null) return null;
  const { efficiency } = machine.spindle;
  if (!(efficiency > 0)) return null;
  const path = `${machine.path}.spindle`;
  const curveFrom = setupSource(setup, `${path}.${key}`, `the machine's ${words} curve`);
  const inputs = [
    input("η", efficiency, "share", setupSource(setup, `${path}.efficiency`, `${COMMON_PRACTICE}, by drive`)),
    input("P(n)", at.value.power / efficiency, "power", `motor, ${curveFrom}`),
    rotationInput(facts, n.value),
  ];
  const torque = derivation({
    formula: "spindle-torque-limit",
    title: `torque the spindle can give at the cutter, ${words}`,
    expression: "M = η · M(n)",
    inputs: [
      inputs[0] ?? input("η", efficiency, "share", COMMON_PRACTICE),
      input("M(n)", at.value.torque / efficiency, "torque", `motor, ${curveFrom}`),
      rotationInput(facts, n.value),
    ],
    symbol: "M",
    value: at.value.torque,
    quantity: "torque",
    source: curveFrom,
    notes: ["never above the curve's first torque point"],
  });
  return derivation({
    formula: "spindle-power-limit",
    title: `power the spindle can give at the cutter, ${words}`,
    expression: "P = η · P(n)",
    inputs,
    symbol: "P",
    value: at.value.power,
    quantity: "power",
    source: curveFrom,
    notes: ["between the points of the curve power runs straight over speed, beyond the last it holds"],
    steps: [torque],
  });
}
