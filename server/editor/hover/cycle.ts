/** Hover of a cycle word: what the cycle does here in words, its strokes, and the loads of its worst hole. */
import { say, sayOne } from "../../units/wording.ts";
import type { HoleShape, UnitSystem } from "../model.ts";
import { printDerivations } from "./derivation.ts";
import { entryOfRuled } from "./entry.ts";
import { envelopePicture } from "./envelope-picture.ts";
import { coolantLine, loadsTable, rulesLine, unknowns } from "./facts.ts";
import { paragraphs, soft } from "./markdown.ts";
import { madeBy, ruledBy, type Target, worstOf } from "./target.ts";

const KIND: { readonly [K in HoleShape["kind"]]: string } = {
  drill: "Drilling in one stroke",
  peck: "Peck drilling with full retracts",
  "chip-break": "Drilling with chip breaks",
  tap: "Tapping",
  bore: "Boring or reaming",
  "back-bore": "Back boring",
};

export function hoverCycle(target: Target): string | null {
  const { review, ref, system } = target;
  let ruled = ruledBy(review, (shape) => shape.refs.cycle === ref);
  if (ruled.length === 0) ruled = madeBy(review, target.block);
  const worst = worstOf(ruled);
  if (worst === null) return null;
  const { loads, shape } = worst;
  return paragraphs(
    `**${KIND[shape.kind]}**. ${strokesLine(shape, system)}  \n${rulesLine(target, ruled, worst)}`,
    // Where the cut is interrupted, that is what the reader came for.
    entryOfRuled(target, ruled, worst),
    envelopePicture(review, worst),
    loadsTable(loads, system),
    coolantLine(loads, shape, system),
    unknowns(loads),
    printDerivations([loads.derive("power"), loads.derive("thrust")], system),
  );
}

export function strokesLine(shape: HoleShape, system: UnitSystem): string {
  const { strokes, startZ, endZ } = shape;
  const axis = shape.axis.toUpperCase();
  const end = endZ === null ? "an unknown depth" : `${axis} ${say(endZ, "length", system)}`;
  const one = `Feeds from ${axis} ${startZ === null ? "unknown" : say(startZ, "length", system)} to ${end}`;
  const peck = shape.peck > 0 ? `, pecks of ${say(shape.peck, "length", system)}` : "";
  const how = strokes.length > 1 ? ` in ${strokes.length} strokes${peck}` : " in one stroke";
  const dwell = shape.dwell > 0 ? `, dwells ${sayOne(shape.dwell, "time", system)}` : "";
  return soft(`${one}${how}${dwell}.`);
}
