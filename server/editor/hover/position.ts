/** Hover of a hole: everything worked out for it, on the words that say where it is. */
import { SQUARE_AXES } from "../../pictures/engagement-of-hole.ts";
import { numberIn, say, sayOne } from "../../units/wording.ts";
import type { Hole, HoleLoads, UnitSystem } from "../model.ts";
import { strokesLine } from "./cycle.ts";
import { printDerivations } from "./derivation.ts";
import { entryOfRuled } from "./entry.ts";
import { coolantLine, loadsTable, toolLine, unknowns } from "./facts.ts";
import { paragraphs, soft, table } from "./markdown.ts";
import { madeBy, type Target, worstOf } from "./target.ts";

export function hoverPosition(target: Target): string | null {
  const { review, system, block } = target;
  const made = madeBy(review, block);
  const worst = worstOf(made);
  if (worst === null) return null;
  const count = review.execution.holesOfBlock(block).length;
  const hole = review.execution.hole(worst.firstHole);
  const { loads, shape } = worst;
  const many = count > 1 ? `one of ${count} holes this block makes, ` : "";
  return paragraphs(
    `**Hole ${hole.index + 1}** of ${review.execution.holeCount}, ${many}${soft(placeText(hole, system))}`,
    `${toolLine(loads.tool, shape.tool, system)}. ${strokesLine(shape, system)}`,
    cuttingTable(loads, system),
    entryOfRuled(target, made, worst),
    loadsTable(loads, system),
    coolantLine(loads, shape, system),
    unknowns(loads),
    printDerivations([loads.derive("power"), loads.derive("thrust"), loads.derive("allowedFeed")], system),
  );
}

function placeText(hole: Hole, system: UnitSystem): string {
  const names = SQUARE_AXES[hole.shape.axis];
  const one = (value: number | null, name: string): string =>
    `${name} ${value === null ? "unknown" : numberIn(value, "length", system).toFixed(system === "mm" ? 2 : 4)}`;
  const [first, second] = hole.written ?? hole.at;
  return `${one(first, names[0])}, ${one(second, names[1])} in ${hole.shape.wcs}`;
}

function cuttingTable(loads: HoleLoads, system: UnitSystem): string {
  const row = (name: string, value: number | null, quantity: Parameters<typeof say>[1]): string[] | null =>
    value === null ? null : [name, soft(say(value, quantity, system))];
  const ratio = loads.depthRatio === null ? null : ["depth", `${loads.depthRatio.toFixed(1)} x D`];
  const rows = [
    row("vc", loads.vc, "speed"),
    row("n", loads.n, "rotation"),
    row("f", loads.f, "feedPerRev"),
    row("vf", loads.vf, "feedRate"),
    row("removal", loads.mrr, "removal"),
    loads.feedTimeMin === null ? null : ["feed time", sayOne(loads.feedTimeMin * 60, "time", system)],
    ratio,
  ].filter((r): r is string[] => r !== null);
  return table(["cut", "value"], rows, "lr");
}
