/** A hole in its public form: mm, 1/min, mm/rev, mm/min, m/min, cm³/min, min, N·m, kW, N, bar; unknown is null with a reason. */

import { entryWords, PARTLY_IN_METAL } from "../checks/entry-words.ts";
import type { Band, Engagement, EngagementSample, EngagementZone } from "../loads/types.ts";
import type { Hole, HoleShape } from "../program/types.ts";
import { placeOf } from "../review/places.ts";
import type { Review } from "../review/types.ts";
import { tidy } from "./public.ts";

export interface PublicSample {
  readonly z: number | null;
  readonly area: number | null;
  readonly rim: number | null;
  readonly voidArc: number | null;
  readonly core: number | null;
  readonly imbalance: number | null;
  readonly side: number | null;
  readonly entries: number | null;
}

export interface HoleOptions {
  readonly program: string;
  /** Another file, as it is shown. */
  readonly show: (file: string) => string;
  /** mm between engagement samples; null: the heights the kernel chose. */
  readonly step: number | null;
}

/** What a null without a better reason means. */
const WHY: Readonly<Record<string, string>> = {
  tool: "no tool was called before this hole",
  n: "no spindle speed is in force",
  f: "no feed is in force",
  fz: "the number of cutting edges is not known",
  vf: "feed or speed is not known",
  vc: "diameter or speed is not known",
  mrr: "diameter, feed or speed is not known",
  feedTimeMin: "the feed of a stroke is not known",
  depthRatio: "diameter or depth is not known",
  torque: "no load can be worked out without tool, material, feed and speed",
  power: "no load can be worked out without tool, material, feed and speed",
  thrust: "no load can be worked out without tool, material and feed",
  limits: "the setup does not declare it",
  coolant: "the setup does not declare it",
  engagement: "the entry cannot be worked out",
  allowedFeed: "no feed is known for this entry",
};

export function publicHole(hole: Hole, review: Review, options: HoleOptions) {
  const { shape } = hole;
  const loads = review.loads(shape);
  const unknown: Record<string, string> = {};
  const note = <T>(field: string, value: T | null, why = ""): T | null => {
    if (value === null) {
      const top = field.split(".")[0] ?? field;
      const leaf = field.split(".").at(-1) ?? field;
      unknown[field] =
        why ||
        (loads.unknown[field] ?? shape.unknown[field] ?? loads.unknown[top] ?? WHY[leaf] ?? WHY[top] ?? "not known");
    }
    return value;
  };
  const number: Note = (field, value, why) => note(field, tidy(value), why);
  const band = (field: string, value: Band | null) =>
    note(field, value === null ? null : { low: tidy(value.low), nominal: tidy(value.nominal), high: tidy(value.high) });
  const { blocks } = review.execution;
  const where = (block: number) => {
    const { file, line } = placeOf(blocks, block);
    return { file: file === null ? options.program : options.show(file), line: line + 1 };
  };
  const { limits, coolant } = loads;
  return {
    index: hole.index,
    operation: shape.operation,
    ...where(hole.block),
    calls: hole.calls.map(where),
    tool: number("tool", shape.tool),
    wcs: shape.wcs,
    axis: shape.axis,
    at: { x: number("at.x", (hole.written ?? hole.at)[0]), y: number("at.y", (hole.written ?? hole.at)[1]) },
    kind: shape.kind,
    startZ: number("startZ", shape.startZ),
    endZ: number("endZ", shape.endZ),
    strokes: shape.strokes.map((stroke) => ({
      fromZ: tidy(stroke.fromZ),
      toZ: tidy(stroke.toZ),
      f: number("f", stroke.f),
      n: number("n", stroke.n),
    })),
    dwell: number("dwell", shape.dwell),
    n: number("n", loads.n),
    direction: shape.state.spindle,
    f: number("f", loads.f),
    fz: number("fz", loads.fz),
    vf: number("vf", loads.vf),
    vc: number("vc", loads.vc),
    mrr: number("mrr", loads.mrr),
    feedTimeMin: number("feedTimeMin", loads.feedTimeMin),
    depthRatio: number("depthRatio", loads.depthRatio),
    torque: band("torque", loads.torque),
    power: band("power", loads.power),
    thrust: band("thrust", loads.thrust),
    limits: {
      torque: {
        continuous: number("limits.torque.continuous", limits.torque?.continuous),
        shortTime: number("limits.torque.shortTime", limits.torque?.shortTime),
      },
      power: {
        continuous: number("limits.power.continuous", limits.power.continuous),
        shortTime: number("limits.power.shortTime", limits.power.shortTime),
      },
      thrust: number("limits.thrust", limits.thrust),
      rpm: number("limits.rpm", limits.rpm),
    },
    coolant: {
      kinds: coolant.kinds,
      pressure: number("coolant.pressure", coolant.pressure),
      flow: number("coolant.flow", coolant.flow),
    },
    engagement: note(
      "engagement",
      loads.engagement === null ? null : publicEngagement(loads.engagement, shape, options.step, number),
    ),
    unknown,
  };
}

export type PublicHole = ReturnType<typeof publicHole>;

/** The value made tidy; a null is written down in `unknown` with its reason. */
type Note = (field: string, value: number | null | undefined, why?: string) => number | null;

function publicEngagement(engagement: Engagement, shape: HoleShape, step: number | null, number: Note) {
  const heights = step === null ? null : heightsOf(shape, step);
  return {
    source: engagement.source,
    form: engagement.form === null ? PARTLY_IN_METAL : entryWords(engagement.form, "mm"),
    class: engagement.class,
    allowedFeed: number("engagement.allowedFeed", engagement.allowedFeed, engagement.allowedWhy),
    firstContactZ: number("engagement.firstContactZ", engagement.firstContactZ),
    fullZ: number("engagement.fullZ", engagement.fullZ),
    zones: engagement.zones.map(publicZone),
    gaps: engagement.gaps.map((gap) => ({ fromZ: tidy(gap.fromZ), toZ: tidy(gap.toZ) })),
    worst: publicSample(engagement.worst),
    samples: (heights === null ? engagement.samples : heights.map((z) => engagement.at(z))).map(publicSample),
  };
}

/** A feed that is null has its reason beside it. */
function publicZone(zone: EngagementZone) {
  return {
    fromZ: tidy(zone.fromZ),
    toZ: tidy(zone.toZ),
    class: zone.class,
    where: zone.where,
    allowedFeed: tidy(zone.allowedFeed),
    allowedWhy: zone.allowedWhy,
  };
}

/** Multiples of `step` from the start of the feed down (or, in a back bore, up) to the end of the hole. */
function heightsOf(shape: HoleShape, step: number): number[] {
  if (shape.startZ === null || shape.endZ === null) return [];
  const towards = Math.sign(shape.endZ - shape.startZ);
  const count = Math.floor(Math.abs(shape.endZ - shape.startZ) / step + 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => tidy((shape.startZ ?? 0) + towards * i * step) ?? 0);
}

function publicSample(sample: EngagementSample): PublicSample {
  return {
    z: tidy(sample.z),
    area: tidy(sample.area),
    rim: tidy(sample.rim),
    voidArc: tidy(sample.voidArc),
    core: tidy(sample.core),
    imbalance: tidy(sample.imbalance),
    side: tidy(sample.side),
    entries: tidy(sample.entries),
  };
}
