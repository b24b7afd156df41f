/** Hover of F: the feed per turn and per edge, the force and torque it makes, and what an interrupted entry allows. */
import { say } from "../../units/wording.ts";
import { printDerivation, printShort } from "./derivation.ts";
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
  const vf = loads.derive("vf");
  const torque = loads.derive("torque");
  const title = loads.f === null ? "Feed" : `Feed ${soft(say(loads.f, "feedPerRev", system))}`;
  return paragraphs(
    `**${title}**. ${rulesLine(target, ruled, worst)}`,
    f !== null
      ? printDerivation(f, system)
      : vf !== null
        ? printDerivation(vf, system)
        : unknowns(loads, ["f", "vf", "n"]),
    loads.fz !== null && loads.fz !== loads.f && `Per edge: **${soft(say(loads.fz, "feedPerRev", system))}**.`,
    windowLine(loads, "f", system),
    entryLine(loads, system),
    loadsTable(loads, system),
    torque !== null && printShort(torque, system),
    unknowns(loads, ["power", "torque", "thrust"]),
  );
}
