/** What of a hole is metal: first stroke in it, depth, the core that earlier tools took, the diameter engaged. */
import type { HoleShape, Stroke } from "../program/types.ts";
import type { Tool } from "../setup/types.ts";
import { finite, known, unknown } from "./known.ts";
import { pointLength } from "./tool-facts.ts";
import type { Known } from "./types.ts";

const NEAR = 1e-6;

export function firstCut(shape: HoleShape): Known<Stroke> {
  if (shape.endZ === null) return unknown(shape.unknown.endZ ?? "the depth of the hole is not known");
  const stroke = shape.strokes[shape.firstCut];
  if (stroke === undefined) return unknown("no stroke of this hole cuts metal");
  return known(stroke);
}

/** Depth of the tip below the surface at the end, mm. */
export function depthOf(shape: HoleShape): Known<number> {
  if (shape.endZ === null) return unknown(shape.unknown.endZ ?? "the depth of the hole is not known");
  const depth = shape.kind === "back-bore" ? shape.endZ - shape.surfaceZ : shape.surfaceZ - shape.endZ;
  return finite(Math.max(0, depth), "the depth of the hole");
}

/** Longest run of feed in metal without a full retract that clears the chips, mm. */
export function unclearedDepth(shape: HoleShape, depth: number): number {
  if (!shape.fullRetracts || shape.strokes.length < 2) return depth;
  let longest = 0;
  let from = Number.NaN;
  let last = Number.NaN;
  for (const { fromZ, toZ } of shape.strokes) {
    // Another feed or speed on the way down clears nothing.
    if (!(Math.abs(fromZ - last) <= NEAR)) from = Math.min(fromZ, shape.surfaceZ);
    longest = Math.max(longest, from - toZ);
    last = toZ;
  }
  return Math.min(depth, Math.max(0, longest));
}

/**
 * Diameter of the core that is already away over the whole depth, mm; 0 when some depth is solid. The section with
 * most metal rules the loads, so a pilot that ends above the bottom does not count.
 */
export function coreDiameter(shape: HoleShape, tool: Tool): number {
  if (shape.endZ === null) return 0;
  let core = 0;
  for (const bored of shape.bored) {
    const through = shape.kind === "back-bore" ? true : bored.toZ <= shape.endZ + NEAR;
    if (through && bored.diameter > core && bored.diameter < tool.DC - NEAR) core = bored.diameter;
  }
  return core;
}

/**
 * Diameter that the point has cut at its deepest, mm: a spot or a shallow hole never brings the corner into the metal.
 */
export function engagedDiameter(shape: HoleShape, tool: Tool): number {
  const depth = depthOf(shape);
  const length = pointLength(tool);
  if (!depth.known || !length.known || depth.value >= length.value.value || length.value.value <= 0) return tool.DC;
  return Math.min(tool.DC, (tool.DC * depth.value) / length.value.value);
}
