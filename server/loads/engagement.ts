/** The engagement of a hole: entry form → kernel → class, zones in heights of the work system, and the feed allowed. */
import type { EntryForm } from "../../grammar/entry.ts";
import { classify, reducedStretch } from "../mechanics/engagement/classify.ts";
import { type DrillFront, drillFront } from "../mechanics/engagement/drill.ts";
import { type EngagementCurve, engage } from "../mechanics/engagement/engage.ts";
import { type Measures, measure } from "../mechanics/engagement/measures.ts";
import type { Solid } from "../mechanics/engagement/solids.ts";
import { entrySurface, withPilot } from "../mechanics/engagement/surfaces.ts";
import type { HoleShape } from "../program/types.ts";
import type { Tool } from "../setup/types.ts";
import { type AllowedFeed, allowedFeed } from "./allowed-feed.ts";
import { coreDiameter, depthOf, engagedDiameter } from "./cut.ts";
import { columnOf, type Row, type Ruling, ruleFor, SHORT_BODY } from "./entry-rules.ts";
import type { Setting } from "./facts.ts";
import { known, unknown } from "./known.ts";
import { untoldEntry, untoldWords } from "./neighbours.ts";
import type { Speeds } from "./speeds.ts";
import { insertBoundary, pointAngle, pointLength } from "./tool-facts.ts";
import { FAMILY_WORDS } from "./torque.ts";
import type { Engagement, EngagementClass, EngagementSample, Known } from "./types.ts";
import type { MatchedWindow } from "./window.ts";

export interface WorkedEngagement {
  readonly engagement: Engagement;
  /** Largest share, over the depth, of the metal that a full cut would take: 0 to 1. */
  readonly mostMetal: number;
  /** Largest normalised side force in the worst zone; 0: none. */
  readonly side: number;
  readonly allowed: AllowedFeed;
  readonly ruling: Ruling | null;
}

const FLAT: EntryForm = { kind: "flat" };

/** mm; farther away a place or a size is a slip of the keyboard. */
const FARTHEST = 1e6;

/** Nothing to reduce. */
const WHOLE: AllowedFeed = { feed: null, why: "no reduction asked: the entry is not interrupted", made: null };

/** One entry to work out. */
interface EntryWork {
  readonly shape: HoleShape;
  /** Deepest tip position. */
  readonly endZ: number;
  readonly tool: Tool;
  readonly setting: Setting;
  readonly window: Known<MatchedWindow>;
  readonly front: DrillFront;
  readonly form: EntryForm;
  readonly source: Engagement["source"];
}

export function engagementOf(
  shape: HoleShape,
  tool: Tool,
  window: Known<MatchedWindow>,
  speeds: Speeds,
  setting: Setting,
): Known<WorkedEngagement> {
  const { endZ } = shape;
  if (endZ === null) return unknown(shape.unknown.endZ ?? "the depth of the hole is not known");
  if (!speeds.depthRatio.known) return speeds.depthRatio;
  const form = shape.kind === "back-bore" ? FLAT : (shape.entry?.form ?? FLAT);
  const bad = badForm(form, tool);
  if (bad !== null) return unknown(bad);
  if (!(Math.abs(shape.surfaceZ) < FARTHEST && Math.abs(endZ) < FARTHEST)) {
    return unknown("the heights of the hole are out of all proportion");
  }
  const untold = untoldEntry(setting.execution, shape);
  if (untold !== null) return unknown(untoldWords(untold, setting.execution.units ?? "mm"));
  const front = frontOf(tool);
  if (!front.known) return front;
  const source = shape.entry?.from ?? "flat";
  const work: EntryWork = { shape, endZ, tool, setting, window, front: front.value, form, source };
  return form.kind === "flat" || form.kind === "skin" ? known(uninterrupted(work)) : interrupted(work);
}

/** Why no engagement can be worked out for a form as it is written, or null. */
function badForm(form: EntryForm, tool: Tool): string | null {
  const numbers = Object.values(form).filter((v): v is number => typeof v === "number");
  if (!numbers.every((v) => Math.abs(v) < FARTHEST)) return "the entry holds a number that means nothing";
  switch (form.kind) {
    case "incline":
      return form.angleDeg >= 0 && form.angleDeg < 90 ? null : `an incline of ${form.angleDeg}° is no entry`;
    case "ridge":
      return form.flankDeg >= 0 && form.flankDeg < 90 ? null : `flanks of ${form.flankDeg}° make no ridge`;
    case "edge-area":
      return form.areaShare > 0 && form.areaShare < 1 ? null : "the share of an edge cut lies between 0 and 100 %";
    case "cylinder": {
      if (!(form.diameterMm > 0)) return "the cylinder has no diameter";
      const widest = form.shape === "concave" ? Math.abs(form.offsetMm) + tool.DC / 2 : Math.abs(form.offsetMm);
      if (widest < form.diameterMm / 2) return null;
      return `the drill does not fit the cylinder of ${form.diameterMm} mm at that offset`;
    }
    case "chain":
      return form.pitchMm > 0 ? null : "the pitch of a chain is above zero";
    default:
      return null;
  }
}

/** Nose radii apart, the front is a straight edge: PL where declared, else by the point angle. */
function frontOf(tool: Tool): Known<DrillFront> {
  const kind = tool.family === "indexable" ? "two-insert" : "two-lip";
  const r1 = insertBoundary(tool).value;
  if (tool.PL !== null && tool.PL >= 0) {
    const length = pointLength(tool);
    if (!length.known) return length;
    return known(drillFront(kind, tool.DC, null, length.value.value, r1));
  }
  const angle = pointAngle(tool);
  // A reamer or a boring tool without a point angle counts as flat; a drill whose angle cannot be has no front.
  if (!angle.known && tool.SIG !== null) return angle;
  return known(drillFront(kind, tool.DC, angle.known ? angle.value.value : 180, null, r1));
}

const sampleAt = (m: Measures, surfaceZ: number): EngagementSample => ({
  z: m.z + surfaceZ,
  area: m.area,
  rim: m.rim,
  voidArc: m.voidArc,
  core: m.core,
  imbalance: m.imbalance,
  side: m.side,
  entries: m.entries,
});

function solidOf(form: EntryForm, shape: HoleShape, tool: Tool): Solid {
  const surface = entrySurface(form, tool.DC);
  const core = coreDiameter(shape, tool);
  return core > 0 ? withPilot(surface, core) : surface;
}

/** Castings and forgings get the wider margin: those with a skin, and cast iron. */
function isCasting(setting: Setting, skin: boolean): boolean {
  return skin || setting.setup.material?.group === "K";
}

/** Flat faces and skin: closed forms, the kernel is asked only for the heights someone wants to see. */
function uninterrupted(work: EntryWork): WorkedEngagement {
  const { shape, endZ, tool, setting, front, source } = work;
  const { surfaceZ } = shape;
  const skin = work.form.kind === "skin";
  const solid = solidOf(FLAT, shape, tool);
  const core = coreDiameter(shape, tool);
  // A pilot lets the point in: first contact is where the edge meets its rim.
  const firstContactZ = surfaceZ - (front.slope * core) / 2;
  const fullZ = surfaceZ - front.slope * front.R;
  const at = (z: number): EngagementSample => sampleAt(measure(solid, front, z - surfaceZ), surfaceZ);
  const margin = reducedStretch(firstContactZ, fullZ, isCasting(setting, skin));
  const verdict = skin ? judge("skin", work) : NO_VERDICT;
  const engagement = new WorkedSamples({
    source,
    class: "none",
    skin,
    allowedFeed: verdict.allowed.feed,
    allowedWhy: verdict.allowed.why,
    advice: verdict.ruling?.advice ?? "",
    forbidden: verdict.ruling?.forbidden ?? "no",
    share: verdict.ruling?.share ?? null,
    firstContactZ,
    fullZ,
    zones: skin ? [{ fromZ: margin.from, toZ: Math.max(endZ, margin.to), class: "none" }] : [],
    at,
    worstOf: () => at(Math.max(Math.min(fullZ, surfaceZ) - BELOW, endZ)),
    samplesOf: () => flatHeights(firstContactZ, fullZ, endZ).map(at),
  });
  return { engagement, mostMetal: 1, side: 0, allowed: verdict.allowed, ruling: verdict.ruling };
}

interface Worked extends Omit<Engagement, "worst" | "samples"> {
  readonly worstOf: () => EngagementSample;
  readonly samplesOf: () => readonly EngagementSample[];
}

/**
 * An engagement whose samples are worked out when somebody asks. A class, since accessors written into an object literal
 * make of each such object a slow and large one, and there is one for every kind of hole.
 */
class WorkedSamples implements Engagement {
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
  readonly zones: Engagement["zones"];
  readonly at: (z: number) => EngagementSample;
  readonly #worstOf: () => EngagementSample;
  readonly #samplesOf: () => readonly EngagementSample[];

  constructor(worked: Worked) {
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

/** Just below a face, so that a flat front counts as in metal. */
const BELOW = 1e-3;

function flatHeights(firstContactZ: number, fullZ: number, endZ: number): number[] {
  const middle = (firstContactZ + fullZ) / 2;
  const heights = [firstContactZ, middle, fullZ - BELOW, endZ].filter((z) => z >= endZ);
  return [...new Set(heights)].sort((a, b) => b - a);
}

interface Verdict {
  readonly ruling: Ruling | null;
  readonly allowed: AllowedFeed;
}

const NO_VERDICT: Verdict = { ruling: null, allowed: WHOLE };

function judge(row: Row, work: EntryWork): Verdict {
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

/** Usable length over D tells a long body from a short one; where it is not declared the hole must do. */
function bodyRatio({ tool, shape }: EntryWork): number {
  const depth = depthOf(shape);
  const length = tool.LU !== null && tool.LU > 0 ? tool.LU : depth.known ? depth.value : 0;
  const ratio = length / tool.DC;
  return Number.isFinite(ratio) ? ratio : 0;
}

function interrupted(work: EntryWork): Known<WorkedEngagement> {
  const { shape, endZ, tool, setting, front, source } = work;
  const { surfaceZ } = shape;
  if (Math.abs(endZ - surfaceZ) > MOST_DIAMETERS * tool.DC)
    return unknown("the depth of the hole is out of all proportion");
  const bottom = telling(work);
  const curve = curveOf(work, bottom);
  if (curve.firstContact === null) return unknown("the drill does not reach the metal of this entry");
  const body = bodyRatio(work);
  const found = classify(front.kind, curve, { DC: tool.DC, depthRatio: body <= SHORT_BODY ? Math.min(body, 3) : body });
  const entryClass: EngagementClass = found.class;
  const verdict = entryClass === "none" ? NO_VERDICT : judge(entryClass, work);
  const firstContactZ = curve.firstContact + surfaceZ;
  const zones = found.zones.map((zone, i) => {
    // The first zone belongs to the entry, whose reduced feed starts before the tip touches.
    const from = i === 0 ? Math.max(firstContactZ, zone.from + surfaceZ) : zone.from + surfaceZ;
    const stretch = reducedStretch(from, zone.to + surfaceZ, isCasting(setting, false));
    // A zone that runs to the bottom ends there.
    const through = zone.to <= bottom + SAME_HEIGHT;
    return { fromZ: stretch.from, toZ: through ? endZ : Math.max(endZ, stretch.to), class: zone.class };
  });
  const full = curve.full === null ? endZ : curve.full + surfaceZ;
  const worst = found.worst?.worst ?? curve.at(full - surfaceZ);
  const engagement = new WorkedSamples({
    source,
    class: entryClass,
    skin: false,
    allowedFeed: verdict.allowed.feed,
    allowedWhy: verdict.allowed.why,
    advice: verdict.ruling?.advice ?? "",
    forbidden: verdict.ruling?.forbidden ?? "no",
    share: verdict.ruling?.share ?? null,
    firstContactZ,
    fullZ: full,
    zones,
    at: (z) => sampleAt(curve.at(z - surfaceZ), surfaceZ),
    worstOf: () => sampleAt(worst, surfaceZ),
    samplesOf: () => samplesOf(curve, surfaceZ, endZ, bottom),
  });
  return known({
    engagement,
    mostMetal: mostMetal(curve, shape, tool),
    side: found.worst?.side ?? 0,
    allowed: verdict.allowed,
    ruling: verdict.ruling,
  });
}

/** The heights of the kernel, and the end of the hole where it lies below them. */
function samplesOf(
  curve: EngagementCurve,
  surfaceZ: number,
  endZ: number,
  bottom: number,
): readonly EngagementSample[] {
  const list = curve.samples.map((m) => sampleAt(m, surfaceZ));
  if (endZ - surfaceZ < bottom - SAME_HEIGHT) list.push(sampleAt(curve.at(endZ - surfaceZ), surfaceZ));
  return list;
}

/** Deeper than any drill goes: the number is a slip of the keyboard. */
const MOST_DIAMETERS = 1000;

const SAME_HEIGHT = 1e-3;

/**
 * Depth to look at, as a height below the surface: nothing changes any more two diameters below where the form of the
 * surface ends, so that holes of any greater depth share one curve.
 */
function telling({ shape, endZ, tool, front, form }: EntryWork): number {
  return Math.max(endZ - shape.surfaceZ, -(formReach(form, front.R) + front.slope * front.R + 2 * tool.DC));
}

/** How far below the surface at the axis the form can leave the drill's rim, mm. */
function formReach(form: EntryForm, R: number): number {
  switch (form.kind) {
    case "incline":
      return R * Math.tan((form.angleDeg * Math.PI) / 180);
    case "ridge":
      return R * Math.tan((form.flankDeg * Math.PI) / 180);
    case "cylinder":
      return form.diameterMm;
    default:
      return 0;
  }
}

function curveOf({ shape, tool, setting, front, form }: EntryWork, bottom: number): EngagementCurve {
  const key = JSON.stringify([front, form, bottom, coreDiameter(shape, tool)]);
  const earlier = setting.curves.get(key);
  if (earlier !== undefined) return earlier;
  const curve = engage(solidOf(form, shape, tool), front, bottom);
  setting.curves.set(key, curve);
  return curve;
}

/** Area in metal over what a full cut of the same drill, depth and core takes. */
function mostMetal(curve: EngagementCurve, shape: HoleShape, tool: Tool): number {
  const outer = engagedDiameter(shape, tool);
  const whole = (outer ** 2 - coreDiameter(shape, tool) ** 2) / tool.DC ** 2;
  const most = curve.samples.reduce((area, m) => Math.max(area, m.area), 0);
  return whole > 0 ? Math.min(1, most / whole) : 1;
}
