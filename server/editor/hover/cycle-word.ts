/** Hovers of Q (peck) and P (dwell) where a cycle uses them. */
import { say, sayOne } from "../../units/wording.ts";
import { strokesLine } from "./cycle.ts";
import { rulesLine } from "./facts.ts";
import { paragraphs, soft } from "./markdown.ts";
import { ruledBy, type Target, worstOf } from "./target.ts";

export function hoverPeck(target: Target): string | null {
  const ruled = ruledBy(target.review, (shape) => shape.refs.q === target.ref);
  const worst = worstOf(ruled);
  if (worst === null) return null;
  const { shape, loads } = worst;
  const diameter = loads.tool?.DC ?? null;
  const share = diameter === null || shape.peck <= 0 ? "" : `, ${(shape.peck / diameter).toFixed(2)} of the diameter`;
  const retract = shape.fullRetracts ? "out of the hole between strokes" : "a short way back to break the chip";
  return paragraphs(
    `**Peck ${soft(say(shape.peck, "length", target.system))}**${share}. ${rulesLine(target, ruled, worst)}`,
    strokesLine(shape, target.system),
    shape.strokes.length > 1 && `The tool goes ${retract}.`,
  );
}

export function hoverDwell(target: Target): string | null {
  const ruled = ruledBy(target.review, (shape) => shape.dwell > 0 && shape.state.from.p === target.ref);
  const worst = worstOf(ruled);
  if (worst === null) return null;
  const { shape, loads } = worst;
  const turns = loads.n === null ? "" : `, ${((shape.dwell * loads.n) / 60).toFixed(1)} turns of the spindle`;
  return `**Dwell ${soft(sayOne(shape.dwell, "time", target.system))}** at the bottom${turns}. ${rulesLine(target, ruled, worst)}`;
}
