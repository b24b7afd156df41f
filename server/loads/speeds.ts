/** n, f, vc, fz, vf, removal rate and feed time of a hole: those of its first stroke in metal. */
import * as kinematics from "../mechanics/kinematics.ts";
import type { HoleShape } from "../program/types.ts";
import type { Tool } from "../setup/types.ts";
import { coreDiameter, depthOf, engagedDiameter, firstCut } from "./cut.ts";
import { finite, known, unknown } from "./known.ts";
import { effectiveEdges } from "./tool-facts.ts";
import type { Known } from "./types.ts";

export interface Speeds {
  readonly n: Known<number>;
  readonly f: Known<number>;
  readonly vc: Known<number>;
  readonly fz: Known<number>;
  readonly vf: Known<number>;
  readonly mrr: Known<number>;
  readonly feedTimeMin: Known<number>;
  readonly depthRatio: Known<number>;
}

/** A tool, or why there is none to reckon with. */
export type KnownTool = Known<Tool>;

export function speedsOf(shape: HoleShape, tool: KnownTool): Speeds {
  const n = rotation(shape);
  const f = feed(shape);
  const vf = !n.known ? n : !f.known ? f : finite(kinematics.feedRate(f.value, n.value), "the feed rate");
  return {
    n,
    f,
    vf,
    vc: !tool.known
      ? tool
      : !n.known
        ? n
        : finite(kinematics.cuttingSpeed(tool.value.DC, n.value), "the cutting speed"),
    fz: feedPerEdge(f, tool),
    mrr: removalRate(shape, tool, f, n),
    feedTimeMin: feedTime(shape),
    depthRatio: depthRatio(shape, tool),
  };
}

function rotation(shape: HoleShape): Known<number> {
  const stroke = firstCut(shape);
  if (!stroke.known) return stroke;
  if (stroke.value.n === null) return unknown(shape.unknown.n ?? "no spindle speed S is in force");
  if (stroke.value.n < 0) return unknown("the spindle speed is below zero");
  return finite(stroke.value.n, "the spindle speed");
}

function feed(shape: HoleShape): Known<number> {
  const stroke = firstCut(shape);
  if (!stroke.known) return stroke;
  if (stroke.value.f === null) return unknown(shape.unknown.f ?? "no feed per revolution can be worked out");
  if (stroke.value.f < 0) return unknown("the feed is below zero");
  return finite(stroke.value.f, "the feed");
}

function feedPerEdge(f: Known<number>, tool: KnownTool): Known<number> {
  if (!f.known) return f;
  if (!tool.known) return tool;
  const edges = effectiveEdges(tool.value);
  if (!edges.known) return edges;
  return finite(kinematics.feedPerTooth(f.value, edges.value.value), "the feed per edge");
}

function removalRate(shape: HoleShape, tool: KnownTool, f: Known<number>, n: Known<number>): Known<number> {
  if (!tool.known) return tool;
  if (!n.known) return n;
  if (!f.known) return f;
  const outer = engagedDiameter(shape, tool.value);
  const core = Math.min(outer, coreDiameter(shape, tool.value));
  return finite(kinematics.removalRate(outer, f.value, n.value, core), "the removal rate");
}

/** Minutes of feed, all strokes, air above the surface included. */
function feedTime(shape: HoleShape): Known<number> {
  if (shape.strokes.length === 0) return unknown(shape.unknown.endZ ?? "the strokes of the hole are not known");
  let minutes = 0;
  for (const { fromZ, toZ, f, n } of shape.strokes) {
    if (f === null || n === null) return unknown(shape.unknown[f === null ? "f" : "n"] ?? "S or F is not known");
    const rate = f * n;
    if (!(rate > 0)) return unknown("the feed rate of a stroke is zero");
    minutes += Math.abs(fromZ - toZ) / rate;
  }
  return finite(minutes, "the feed time");
}

/** Full depth of the tip below the surface over D. */
function depthRatio(shape: HoleShape, tool: KnownTool): Known<number> {
  const depth = depthOf(shape);
  if (!depth.known) return depth;
  if (!tool.known) return tool;
  return finite(depth.value / tool.value.DC, "the depth ratio");
}

/** mm; beyond these a diameter is a slip of the keyboard. */
const THINNEST = 0.01;
const THICKEST = 5000;

/** A tool with a diameter that can be reckoned with. */
export function usableTool(shape: HoleShape, tool: Tool | null): KnownTool {
  if (shape.tool === null) return unknown(shape.unknown.tool ?? "no tool is known to be in the spindle");
  if (tool === null)
    return unknown(`no tool T${shape.tool} is declared and no comment that can be read names its diameter`);
  if (!(tool.DC > 0)) return unknown(`T${tool.T} has no diameter DC`);
  if (tool.DC < THINNEST || tool.DC > THICKEST) return unknown(`no drill has the diameter DC of T${tool.T}`);
  return known(tool);
}
