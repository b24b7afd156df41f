/** Hover of F: the feed per turn and per edge, the torque and thrust it makes, and what an interrupted entry allows. */
import { say } from "../../units/wording.ts";
import { inTitle, printDerivations } from "./derivation.ts";
import { entryLine } from "./entry.ts";
import { loadsTable, rulesLine, unknowns, windowLine } from "./facts.ts";
import { paragraphs, soft } from "./markdown.ts";
import { ruledBy, type Target, worstOf } from "./target.ts";

export function hoverFeed(target: Target): string | null {
  const ruled = ruledBy(
    target.review,
    (shape) => shape.state.from.f === target.ref || shape.strokes.some((stroke) => stroke.fRef === target.ref),
  );
  const worst = worstOf(ruled);
  if (worst === null) return paragraphs("**Feed**", rulesLine(target, ruled, worst));
  const { loads } = worst;
  const { system } = target;
  const f = loads.derive("f");
  const title = f === null ? "**Feed**" : `Feed ${inTitle(f, system)}`;
  const fz = loads.fz === null || loads.fz === loads.f ? "" : `, per edge ${soft(say(loads.fz, "feedPerRev", system))}`;
  return paragraphs(
    `${title}${fz}  \n${rulesLine(target, ruled, worst)}`,
    entryLine(loads, system),
    loadsTable(loads, system),
    windowLine(loads, "f", system),
    unknowns(loads, ["f", "vf", "n", "power", "torque", "thrust"]),
    printDerivations([f, loads.derive("allowedFeed"), loads.derive("torque"), loads.derive("thrust")], system),
  );
}
