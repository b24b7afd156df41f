import { metalHoles } from "./cause.ts";
import { isWhole } from "./course.ts";
import { single } from "./one-place.ts";
import type { Check } from "./types.ts";
import { feedCode } from "./wording.ts";

export const feedModeOpen: Check = {
  id: "feed-mode-open",
  family: "feed",
  severity: "info",
  docs: {
    title: "The program does not say what its feeds are",
    what: "A whole program that cuts before G94 or G95 (or G93) is written.",
    why: "F then means what the program before left in force: 120 mm/min, or 120 mm in each turn.",
    formula: "",
    example: "G21 G90 G54\nT3 M6\nS2500 M3\nM88\nG99 G81 X0. Y0. Z-5. R2. F450.\nG80\nM30",
    better: "G21 G90 G94 G54\nT3 M6\nS2500 M3\nM88\nG99 G81 X0. Y0. Z-5. R2. F450.\nG80\nM30",
    limits:
      "Most controls begin in the mode that the dialect names (`startFeedMode`), so it is information, once. Lines without a tool change and an end are a part of a program and stay silent, and so do turning machines.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { dialect } = context.setup;
    if (dialect.machineKind !== "mill" || !isWhole(context)) return;
    const [hole] = metalHoles(context);
    if (hole === undefined || hole.shape.kind === "tap" || hole.shape.state.from.feedMode !== 0) return;
    const begins = feedCode(context, hole.shape.state.feedMode === 95 ? 95 : 94);
    yield single(
      "feed-mode-open",
      "info",
      { in: "program", span: context.spanOf(hole.shape.state.from.f, hole.firstBlock) },
      `Neither ${feedCode(context, 94)} nor ${feedCode(context, 95)} is written before this feed: it is read in ${begins}, with which the dialect begins. Way out: ${begins} in the first lines.`,
    );
  },
};
