/** Hover of the depth and retract words (Z and R in the XY plane): how deep the hole goes and from where it is fed. */
import { say, sayOne } from "../../units/wording.ts";
import type { HoleShape, UnitSystem } from "../model.ts";
import { printDerivations } from "./derivation.ts";
import { entryOfRuled } from "./entry.ts";
import { rulesLine, unknowns } from "./facts.ts";
import { paragraphs, soft, table } from "./markdown.ts";
import { madeBy, type Ruled, ruledBy, type Target } from "./target.ts";

export function hoverDepth(target: Target): string | null {
  const { review, ref, letter, block } = target;
  let ruled = ruledBy(review, (shape) => (letter === "R" ? shape.refs.r : shape.refs.z) === ref);
  // A long-hand move down is one of several that make the hole: its block knows the hole.
  if (ruled.length === 0 && letter !== "R") ruled = madeBy(review, block);
  const deepest = deepestOf(ruled);
  if (deepest === null) return null;
  const { loads } = deepest;
  const title = letter === "R" ? "Retract plane" : "Depth";
  const point = loads.derive("pointLength");
  return paragraphs(
    `**${title}**. ${rulesLine(target, ruled, deepest)}`,
    depthTable(deepest, target.system),
    letter !== "R" && entryOfRuled(target, ruled, deepest),
    letter !== "R" && printDerivations([point], target.system),
    unknowns(loads, ["endZ", "startZ", "depth", "depthRatio", "surfaceZ", "pointLength"]),
  );
}

function deepestOf(ruled: readonly Ruled[]): Ruled | null {
  const depth = (r: Ruled): number => r.loads.depthRatio ?? r.shape.surfaceZ - (r.shape.endZ ?? r.shape.surfaceZ);
  return ruled.reduce<Ruled | null>((best, r) => (best === null || depth(r) > depth(best) ? r : best), null);
}

const SURFACE: { readonly [S in HoleShape["surfaceFrom"]]: string } = {
  stock: "from the stock",
  assumed: "assumed at the dialect's stock top",
  "r-plane": "taken at the R plane",
  "previous-hole": "bottom of the hole drilled before",
};

function depthTable({ shape, loads }: Ruled, system: UnitSystem): string {
  const axis = shape.axis.toUpperCase();
  const rows: string[][] = [];
  const row = (name: string, value: number | null, note = ""): void => {
    if (value !== null && Number.isFinite(value)) rows.push([name, soft(say(value, "length", system)), note]);
  };
  row(`feed begins at ${axis}`, shape.startZ);
  row(`metal begins at ${axis}`, shape.surfaceZ, SURFACE[shape.surfaceFrom]);
  if (shape.startZ !== null && shape.surfaceZ !== null) row("clearance above metal", shape.startZ - shape.surfaceZ);
  row(`tip ends at ${axis}`, shape.endZ);
  if (shape.endZ !== null) {
    const depth = shape.surfaceZ - shape.endZ;
    row("depth to the tip", depth);
    if (loads.pointLength !== null) row("depth at full diameter", depth - loads.pointLength, "tip less point length");
  }
  if (loads.tool?.LU != null) row("usable length LU", loads.tool.LU);
  if (loads.depthRatio !== null) rows.push(["depth in diameters", `${loads.depthRatio.toFixed(1)} x D`, ""]);
  if (shape.peck > 0) row("peck", shape.peck, `${shape.strokes.length} strokes`);
  if (shape.dwell > 0) rows.push(["dwell at the bottom", soft(sayOne(shape.dwell, "time", system)), ""]);
  return table(["level or length", "value", ""], rows, "lrl");
}
