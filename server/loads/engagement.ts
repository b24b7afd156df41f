/** The engagement of a hole: entry form → kernel → class, zones in heights of the work system, and the feed allowed. */
import type { EntryForm } from "../../grammar/entry.ts";
import type { DrillFront } from "../mechanics/engagement/drill.ts";
import { measure } from "../mechanics/engagement/measures.ts";
import type { Solid } from "../mechanics/engagement/solids.ts";
import { entrySurface, withPilot } from "../mechanics/engagement/surfaces.ts";
import type { HoleShape } from "../program/types.ts";
import type { Tool } from "../setup/types.ts";
import { coreDiameter } from "./cut.ts";
import { exitZones } from "./exit.ts";
import type { Setting } from "./facts.ts";
import { frontOf } from "./front.ts";
import { classOf, interrupted } from "./interrupted-cut.ts";
import { known, unknown } from "./known.ts";
import { planOf } from "./plan.ts";
import type { Speeds } from "./speeds.ts";
import { surroundingsOf } from "./surroundings/arrange.ts";
import { formOf } from "./surroundings/form.ts";
import type { EngagementClass, EngagementSample, Known } from "./types.ts";
import type { MatchedWindow } from "./window.ts";
import {
  type EntryWork,
  judge,
  NO_VERDICT,
  sampleAt,
  skinZone,
  type WorkedEngagement,
  WorkedSamples,
} from "./worked.ts";

const FLAT: EntryForm = { kind: "flat" };

/** mm; farther away a place or a size is a slip of the keyboard. */
const FARTHEST = 1e6;

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
  const front = frontOf(tool);
  if (!front.known) return front;
  // A note that tells the face tells that it was machined too.
  const skin = shape.entry === null && stockSkin(shape, setting);
  const facts = { shape, endZ, tool, setting, window, front: front.value, skin };
  const around = shape.kind === "back-bore" ? null : surroundingsOf(shape);
  let byPart: EngagementClass | null = null;
  if (around !== null && !("why" in around) && around.air && shape.entry === null)
    return unknown("nothing of the declared part is where this hole goes");
  if (around !== null && !("why" in around) && !around.air) {
    const { solid, key } = around;
    const metal = { metal: () => solid, metalKey: key, bottom: endZ - shape.surfaceZ, joints: around.joints };
    const work: EntryWork = { ...facts, ...metal, form: formOf(solid, tool.DC / 2), source: "stock" };
    if (shape.entry === null) return interrupted(work, null);
    if (around.declared) byPart = classOf(work);
  } else if (around !== null && "why" in around && shape.entry === null) return unknown(around.why);
  else if (around === null && shape.topDeclared === true) byPart = "none";
  if (skin) {
    const metal = { metal: () => solidOf(FLAT, shape, tool), metalKey: "flat", bottom: endZ - shape.surfaceZ };
    return known(uninterrupted({ ...facts, ...metal, form: { kind: "skin" }, source: "stock" }, null));
  }
  const work: EntryWork = {
    ...facts,
    form,
    source: shape.entry?.from ?? "flat",
    metal: () => solidOf(form, shape, tool),
    metalKey: JSON.stringify([form, coreDiameter(shape, tool)]),
    bottom: telling(shape, endZ, tool, front.value, form),
  };
  return form.kind === "flat" || form.kind === "skin" ? known(uninterrupted(work, byPart)) : interrupted(work, byPart);
}

/** The declared part has its cast or forged skin where this hole begins. */
function stockSkin({ axis, surfaceFrom, topDeclared }: HoleShape, { setup }: Setting): boolean {
  const skin = setup.workpiece?.stock?.skin ?? null;
  return skin !== null && topDeclared === true && surfaceFrom === "stock" && (skin.on === "all" || axis === "z");
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

function solidOf(form: EntryForm, shape: HoleShape, tool: Tool): Solid {
  const surface = entrySurface(form, tool.DC);
  const core = coreDiameter(shape, tool);
  return core > 0 ? withPilot(surface, core) : surface;
}

/** Flat faces and skin: closed forms, the kernel is asked only for the heights someone wants to see. */
function uninterrupted(work: EntryWork, byPart: EngagementClass | null): WorkedEngagement {
  const { shape, endZ, tool, front, source } = work;
  const { surfaceZ } = shape;
  const skin = work.form?.kind === "skin";
  const solid = solidOf(FLAT, shape, tool);
  const core = coreDiameter(shape, tool);
  // A pilot lets the point in: first contact is where the edge meets its rim.
  const firstContactZ = surfaceZ - (front.slope * core) / 2;
  const fullZ = surfaceZ - front.slope * front.R;
  const at = (z: number): EngagementSample => sampleAt(measure(solid, front, z - surfaceZ), surfaceZ);
  const verdict = skin ? judge("skin", work) : NO_VERDICT;
  const engagement = new WorkedSamples({
    form: work.form,
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
    zones: [...(skin ? [skinZone(work, firstContactZ, fullZ)] : []), ...exitZones(work)],
    gaps: [],
    most: { z: Math.max(Math.min(fullZ, surfaceZ), endZ), area: 1 },
    byPart,
    front,
    plan: (z, rings) => planOf(solid, front, z - surfaceZ, rings),
    at,
    worstOf: () => at(Math.max(Math.min(fullZ, surfaceZ) - BELOW, endZ)),
    samplesOf: () => flatHeights(firstContactZ, fullZ, endZ).map(at),
  });
  return { engagement, mostMetal: 1, mostEdge: 1, side: 0, allowed: verdict.allowed, ruling: verdict.ruling };
}

/** Just below a face, so that a flat front counts as in metal. */
const BELOW = 1e-3;

function flatHeights(firstContactZ: number, fullZ: number, endZ: number): number[] {
  const middle = (firstContactZ + fullZ) / 2;
  const heights = [firstContactZ, middle, fullZ - BELOW, endZ].filter((z) => z >= endZ);
  return [...new Set(heights)].sort((a, b) => b - a);
}

/**
 * Depth to look at, as a height below the surface: nothing changes any more two diameters below where the form of the
 * surface ends, so that holes of any greater depth share one curve.
 */
function telling(shape: HoleShape, endZ: number, tool: Tool, front: DrillFront, form: EntryForm): number {
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
