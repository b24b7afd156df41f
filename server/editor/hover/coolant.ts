/** Hover of a coolant word: what it switches, and what is on when each drill it serves meets the metal. */
import { say } from "../../units/wording.ts";
import { coolantLine, rulesLine } from "./facts.ts";
import { paragraphs, soft } from "./markdown.ts";
import { ruledBy, type Target, worstOf } from "./target.ts";

const KIND = { flood: "Flood coolant", mist: "Mist", through: "Coolant through the tool", air: "Air blast" } as const;

export function hoverCoolant(target: Target): string | null {
  const { review, system, value } = target;
  if (value === null) return null;
  const name = `M${value}`;
  const dialect = review.setup.dialect;
  if (dialect.coolantOff.has(name)) return `**${name}**: all coolant off.`;
  const both = dialect.spindleCoolant.get(name);
  const codeName = both?.coolant ?? name;
  const supply = review.setup.machine?.coolant.get(codeName) ?? null;
  const kind = supply?.kind ?? dialect.coolantOn.get(codeName) ?? null;
  if (kind === null) return null;
  const ruled = ruledBy(
    review,
    (shape) => shape.state.from.coolant === target.ref && shape.state.coolant.includes(codeName),
  );
  const worst = worstOf(ruled);
  const pressure = supply?.pressure == null ? "pressure not declared" : say(supply.pressure, "pressure", system);
  const flow = supply?.flow == null ? "flow not declared" : say(supply.flow, "flow", system);
  const turns =
    both === undefined
      ? ""
      : ` Also starts the spindle ${both.direction === "cw" ? "clockwise" : "counter-clockwise"}.`;
  return paragraphs(
    `**${KIND[kind]}** on: ${soft(pressure)}, ${soft(flow)}.${turns} ${rulesLine(target, ruled, worst)}`,
    worst !== null && coolantLine(worst.loads, worst.shape, system),
  );
}
