/** Flow and pressure that a drill asks for: its own figures first, else rules of thumb for the families that have one. */
import { coolantGuide, recommendedFlow } from "../mechanics/coolant.ts";
import type { HoleLoads } from "./types.ts";

export interface FlowNeed {
  /** L/min */
  readonly flow: number;
  readonly declared: boolean;
}

/** Flow the drill asks for: its own figure, else for insert drills the rule of thumb. null: no rule. */
export function flowNeed(loads: HoleLoads): FlowNeed | null {
  const { tool, depthRatio } = loads;
  if (tool === null) return null;
  if (tool.minFlow !== null) return { flow: tool.minFlow, declared: true };
  if (tool.family !== "indexable" || tool.familyAssumed) return null;
  return { flow: recommendedFlow(tool.DC, depthRatio ?? 0), declared: false };
}

export interface PressureNeed {
  /** bar */
  readonly pressure: number;
  readonly declared: boolean;
  /** Where a rule of thumb comes from. */
  readonly from: string;
}

/** Gun drills traditionally run near 1000 psi, bar. Source: Cutting Tool Engineering, "The pressure's on", 1999. */
const GUN_PRESSURE = 69;

/**
 * Pressure the drill asks for: its own figure, else a rule of thumb for coolant through insert and gun drills. null: no
 * rule; none is published for solid carbide.
 */
export function pressureNeed(loads: HoleLoads): PressureNeed | null {
  const { tool, depthRatio, material } = loads;
  if (tool === null) return null;
  if (tool.minPressure !== null) return { pressure: tool.minPressure, declared: true, from: "" };
  if (tool.familyAssumed || !loads.coolant.kinds.includes("through")) return null;
  if (tool.family === "gun") {
    return {
      pressure: GUN_PRESSURE,
      declared: false,
      from: "what gun drills by tradition run at, trade press of 1999",
    };
  }
  if (tool.family !== "indexable") return null;
  const stainless = material?.group === "M";
  const guide = coolantGuide({ DC: tool.DC, depthRatio: depthRatio ?? 0, verticalDown: false, stainless });
  return { pressure: guide.pressure.low, declared: false, from: "common practice by diameter, depth and material" };
}
