/**
 * Feed allowed in an interrupted cut: max(fMin, share × nominal feed of the tool's window). Never a share of the
 * programmed feed, so that one already reduced is left in peace; never below the floor, where the edge rubs.
 */
import type { Tool, WorkMaterial } from "../setup/types.ts";
import type { UnitSystem } from "../units/quantities.ts";
import { say } from "../units/wording.ts";
import type { Ruling } from "./entry-rules.ts";
import { COMMON_PRACTICE } from "./provenance.ts";
import type { Fact } from "./tool-facts.ts";
import type { Known } from "./types.ts";
import type { MatchedWindow } from "./window.ts";

export interface AllowedFeed {
  /** mm/rev */
  readonly feed: number | null;
  readonly why: string;
  /** What it was made of, where it is known. */
  readonly made: { readonly share: number; readonly nominal: number; readonly floor: Fact } | null;
}

/** mm/rev below which the edge rubs: common practice, no source; the tool's own value goes before it. */
export function feedFloor(tool: Tool, material: WorkMaterial | null): Fact {
  if (tool.entry.fMin !== null && tool.entry.fMin > 0) return { value: tool.entry.fMin, field: "entry.fMin", from: "" };
  const tough = material !== null && (material.group === "M" || material.group === "S");
  const value = (): number => {
    switch (tool.family) {
      case "solid-carbide":
        return 0.003 * tool.DC;
      case "twist-hss":
        return 0.004 * tool.DC;
      // A spade blade has the edge of an insert.
      default:
        return tough ? 0.05 : 0.04;
    }
  };
  return { value: value(), field: null, from: COMMON_PRACTICE };
}

export const NO_FEED_FITS = "no feed fits: change drill, edge or entry";

export function allowedFeed(
  ruling: Ruling,
  window: Known<MatchedWindow>,
  tool: Tool,
  material: WorkMaterial | null,
  system: UnitSystem,
): AllowedFeed {
  if (ruling.share === null) return { feed: null, why: ruling.why, made: null };
  if (!window.known) return { feed: null, why: `cannot check, because ${window.why}`, made: null };
  const nominal = window.value.f?.[1];
  if (nominal === undefined) {
    return {
      feed: null,
      why: `cannot check, because no feed window for ${window.value.matched} is declared for T${tool.T}`,
      made: null,
    };
  }
  const floor = feedFloor(tool, material);
  const wanted = ruling.share * nominal;
  const made = { share: ruling.share, nominal, floor };
  if (wanted < floor.value) {
    const why = `${percent(ruling.share)} of ${say(nominal, "feedPerRev", system)} is ${say(wanted, "feedPerRev", system)}, below the ${say(floor.value, "feedPerRev", system)} at which the edge still cuts: ${NO_FEED_FITS}`;
    return { feed: floor.value, why, made };
  }
  const origin = ruling.path === null ? `, ${COMMON_PRACTICE}` : "";
  const why = `${percent(ruling.share)} of the nominal ${say(nominal, "feedPerRev", system)} (${ruling.why}${origin})`;
  return { feed: wanted, why, made };
}

function percent(share: number): string {
  return `${Number((share * 100).toFixed(1))} %`;
}
