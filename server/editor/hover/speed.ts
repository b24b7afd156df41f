/** Hover of S: the cutting speed it gives, and where the spindle then stands. */
import { say } from "../../units/wording.ts";
import { printDerivation } from "./derivation.ts";
import { envelopePicture } from "./envelope-picture.ts";
import { loadsTable, rulesLine, unknowns, windowLine } from "./facts.ts";
import { paragraphs, soft } from "./markdown.ts";
import { ruledBy, type Target, worstOf } from "./target.ts";

export function hoverSpeed(target: Target): string | null {
  const ruled = ruledBy(target.review, (shape) => shape.state.from.s === target.ref);
  const worst = worstOf(ruled);
  const n = worst?.loads.n ?? null;
  const title = n === null ? "Spindle speed" : `Spindle speed ${soft(say(n, "rotation", target.system))}`;
  if (worst === null) return paragraphs(`**${title}**`, rulesLine(target, ruled, worst));
  const { loads } = worst;
  const vc = loads.derive("vc");
  return paragraphs(
    `**${title}**. ${rulesLine(target, ruled, worst)}`,
    vc === null ? unknowns(loads, ["vc", "n"]) : printDerivation(vc, target.system),
    windowLine(loads, "vc", target.system),
    loadsTable(loads, target.system),
    envelopePicture(target.review, worst),
    unknowns(loads, ["power", "torque"]),
  );
}
