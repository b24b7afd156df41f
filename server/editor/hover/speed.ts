/** Hover of S: the cutting speed it gives, what the spindle can do at it, and what the cut takes of that. */
import { inTitle, printDerivations } from "./derivation.ts";
import { envelopePicture } from "./envelope-picture.ts";
import { loadsTable, rulesLine, unknowns, windowLine } from "./facts.ts";
import { paragraphs } from "./markdown.ts";
import { ruledBy, type Target, worstOf } from "./target.ts";

export function hoverSpeed(target: Target): string | null {
  const { review, system } = target;
  const ruled = ruledBy(review, (shape) => shape.state.from.s === target.ref);
  const worst = worstOf(ruled);
  if (worst === null) return paragraphs("**Spindle speed**", rulesLine(target, ruled, worst));
  const { loads } = worst;
  const vc = loads.derive("vc");
  const title = vc === null ? "**Spindle speed**" : `Cutting speed ${inTitle(vc, system)}`;
  return paragraphs(
    `${title}  \n${rulesLine(target, ruled, worst)}`,
    envelopePicture(review, worst),
    loadsTable(loads, system),
    windowLine(loads, "vc", system),
    unknowns(loads, ["n", "vc", "power", "torque"]),
    printDerivations([vc, loads.derive("limits")], system),
  );
}
