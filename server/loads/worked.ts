/** What is worked out of an entry, and by which rule its feed is judged. */
import type { EntryForm } from "../../grammar/entry.ts";
import { type EntryClass, reducedStretch } from "../mechanics/engagement/classify.ts";
import type { DrillFront } from "../mechanics/engagement/drill.ts";
import type { Measures } from "../mechanics/engagement/measures.ts";
import type { Solid } from "../mechanics/engagement/solids.ts";
import type { HoleShape } from "../program/types.ts";
import type { Tool } from "../setup/types.ts";
import { type AllowedFeed, allowedFeed } from "./allowed-feed.ts";
import { depthOf } from "./cut.ts";
import { columnOf, type Row, type Ruling, ruleFor } from "./entry-rules.ts";
import type { Setting } from "./facts.ts";
import { FAMILY_WORDS } from "./torque.ts";
import type { Engagement, EngagementClass, EngagementSample, EngagementZone, Known } from "./types.ts";
import type { MatchedWindow } from "./window.ts";

export interface WorkedEngagement {
  readonly engagement: Engagement;
  /** Largest share, over the depth, of the metal that a full cut would take: 0 to 1. */
  readonly mostMetal: number;
  /** The same of the cutting edge: what thrust goes by. */
  readonly mostEdge: number;
  /** Largest normalised side force in the worst zone; 0: none. */
  readonly side: number;
  readonly allowed: AllowedFeed;
  readonly ruling: Ruling | null;
}

/** One entry to work out. */
export interface EntryWork {
  readonly shape: HoleShape;
  /** Deepest tip position. */
  readonly endZ: number;
  readonly tool: Tool;
  readonly setting: Setting;
  readonly window: Known<MatchedWindow>;
  readonly front: DrillFront;
  /** null: none of the forms that have words. */
  readonly form: EntryForm | null;
  readonly source: Engagement["source"];
  /** The face is a cast or forged skin, by the declared stock. */
  readonly skin: boolean;
  /** Metal around the axis, its height 0 at the surface of the hole, and a name that equal ones share. */
  readonly metal: () => Solid;
  readonly metalKey: string;
  /** Height below which nothing changes any more. */
  readonly bottom: number;
  /** Heights at which plates touch, 0 at the surface of the hole; left out: none. */
  readonly joints?: readonly number[];
}

/** Nothing to reduce. */
const WHOLE: AllowedFeed = { feed: null, why: "no reduction asked: the entry is not interrupted", made: null };

export interface Verdict {
  readonly ruling: Ruling | null;
  readonly allowed: AllowedFeed;
}

export const NO_VERDICT: Verdict = { ruling: null, allowed: WHOLE };

export function judge(row: Row, work: EntryWork): Verdict {
  const { tool, setting, window, form } = work;
  const { setup, execution } = setting;
  const column = columnOf(tool.family);
  const material = setup.material;
  if (column === null) {
    const why = `shop practice has no feed share for ${FAMILY_WORDS[tool.family]}`;
    const gun = tool.family === "gun";
    const advice = gun ? "guide it by a bush or a pilot hole" : "";
    const ruling: Ruling = { share: null, path: null, why, forbidden: gun ? "warning" : "no", advice };
    return { ruling, allowed: { feed: null, why, made: null } };
  }
  const ruling = ruleFor({ tool, column, row, form, material, bodyRatio: bodyRatio(work) }, setup);
  return { ruling, allowed: allowedFeed(ruling, window, tool, material, execution.units ?? "mm") };
}

/** The verdict on each class that a hole has zones of, judged once. */
export function judgeClasses(work: EntryWork): (of: EntryClass) => Verdict {
  const judged = new Map<EntryClass, Verdict>();
  return (of) => {
    let verdict = judged.get(of);
    if (verdict === undefined) {
      verdict = of === "none" ? NO_VERDICT : judge(of, work);
      judged.set(of, verdict);
    }
    return verdict;
  };
}

/**
 * Feed where the drill comes out on one side first. The hole guides it by then, so no drill is refused; what is left is to go
 * slowly. Common practice, no source: half feed, a third for a hard one; two-insert drills as at the entry.
 */
const EXIT_SHARE: { readonly [C in Exclude<EntryClass, "none">]: readonly [inserts: number, lips: number] } = {
  light: [1, 1],
  medium: [0.7, 0.5],
  heavy: [0.5, 0.33],
  extreme: [0.5, 0.33],
};

export function judgeExit(of: EntryClass, work: EntryWork): Verdict {
  if (of === "none") return NO_VERDICT;
  const { tool, setting, window } = work;
  const share = EXIT_SHARE[of][tool.family === "indexable" ? 0 : 1];
  const ruling: Ruling = { share, path: null, why: `class ${of} at the exit`, forbidden: "no", advice: "" };
  return {
    ruling,
    allowed: allowedFeed(ruling, window, tool, setting.setup.material, setting.execution.units ?? "mm"),
  };
}

/** Share across the joint of two plates, clamped: common practice, no source. */
const JOINT_SHARE: { readonly [family: string]: number } = { "twist-hss": 0.7 };

/** Where the drill passes from one plate into the next: slowly, whatever is cut of the turn. */
export function jointZone(work: EntryWork, top: number, low: number, joint: "touching" | "gap"): EngagementZone {
  const { tool, setting, window, front, endZ } = work;
  const share = JOINT_SHARE[tool.family] ?? 0.5;
  const ruling: Ruling = { share, path: null, why: "across the joint of two plates", forbidden: "no", advice: "" };
  const allowed = allowedFeed(ruling, window, tool, setting.setup.material, setting.execution.units ?? "mm");
  const stretch = reducedStretch(top, low - front.slope * front.R, isCasting(setting, false));
  return {
    fromZ: stretch.from,
    toZ: Math.max(endZ, stretch.to),
    class: "medium",
    where: "inside",
    allowedFeed: allowed.feed,
    allowedWhy: allowed.why,
    coreAir: 0,
    joint,
  };
}

/** Usable length over D tells a long body from a short one; where it is not declared the hole must do. */
export function bodyRatio({ tool, shape }: EntryWork): number {
  const depth = depthOf(shape);
  const length = tool.LU !== null && tool.LU > 0 ? tool.LU : depth.known ? depth.value : 0;
  const ratio = length / tool.DC;
  return Number.isFinite(ratio) ? ratio : 0;
}

/** The stretch in which skin is cut: until the corner is below it. */
export function skinZone(work: EntryWork, firstContactZ: number, fullZ: number): EngagementZone {
  const { allowed } = judge("skin", work);
  const stretch = reducedStretch(firstContactZ, fullZ, true);
  return {
    fromZ: stretch.from,
    toZ: Math.max(work.endZ, stretch.to),
    class: "none",
    where: "entry",
    allowedFeed: allowed.feed,
    allowedWhy: allowed.why,
    coreAir: 0,
  };
}

/** Castings and forgings get the wider margin: those with a skin, and cast iron. */
export function isCasting(setting: Setting, skin: boolean): boolean {
  return skin || setting.setup.material?.group === "K";
}

export const sampleAt = (m: Measures, surfaceZ: number): EngagementSample => ({
  z: m.z + surfaceZ,
  area: m.area,
  rim: m.rim,
  voidArc: m.voidArc,
  core: m.core,
  imbalance: m.imbalance,
  side: m.side,
  entries: m.entries,
});

interface Worked extends Omit<Engagement, "worst" | "samples"> {
  readonly worstOf: () => EngagementSample;
  readonly samplesOf: () => readonly EngagementSample[];
}

/**
 * An engagement whose samples are worked out when somebody asks. A class, since accessors written into an object literal
 * make of each such object a slow and large one, and there is one for every kind of hole.
 */
export class WorkedSamples implements Engagement {
  readonly form: EntryForm | null;
  readonly source: Engagement["source"];
  readonly class: EngagementClass;
  readonly skin: boolean;
  readonly allowedFeed: number | null;
  readonly allowedWhy: string;
  readonly advice: string;
  readonly forbidden: Engagement["forbidden"];
  readonly share: number | null;
  readonly firstContactZ: number;
  readonly fullZ: number;
  readonly zones: readonly EngagementZone[];
  readonly gaps: Engagement["gaps"];
  readonly most: Engagement["most"];
  readonly byPart: EngagementClass | null;
  readonly front: Engagement["front"];
  readonly plan: Engagement["plan"];
  readonly at: (z: number) => EngagementSample;
  readonly #worstOf: () => EngagementSample;
  readonly #samplesOf: () => readonly EngagementSample[];

  constructor(worked: Worked) {
    this.form = worked.form;
    this.source = worked.source;
    this.class = worked.class;
    this.skin = worked.skin;
    this.allowedFeed = worked.allowedFeed;
    this.allowedWhy = worked.allowedWhy;
    this.advice = worked.advice;
    this.forbidden = worked.forbidden;
    this.share = worked.share;
    this.firstContactZ = worked.firstContactZ;
    this.fullZ = worked.fullZ;
    this.zones = worked.zones;
    this.gaps = worked.gaps;
    this.most = worked.most;
    this.byPart = worked.byPart;
    this.front = worked.front;
    this.plan = worked.plan;
    this.at = worked.at;
    this.#worstOf = worked.worstOf;
    this.#samplesOf = worked.samplesOf;
  }

  get worst(): EngagementSample {
    return this.#worstOf();
  }

  get samples(): readonly EngagementSample[] {
    return this.#samplesOf();
  }
}
