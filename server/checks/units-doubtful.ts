import { anyHoles, metalHoles } from "./cause.ts";
import { cuttingStrokes, implausibleFeed } from "./feed.ts";
import { sayLength } from "./length-words.ts";
import { single } from "./one-place.ts";
import type { Check, CheckContext, FindingPlace } from "./types.ts";
import { listed } from "./wording.ts";

export const unitsDoubtful: Check = {
  id: "units-doubtful",
  family: "reading",
  severity: "warning",
  docs: {
    title: "The numbers look like those of the other unit",
    what: "At least two signs that a program in G20 is written in mm, or one in G21 in inches: comments that name the other unit, feeds that fit only in it, depths, and places beyond the travel of the machine. What other checks would say of these lengths and feeds is left out; the finding is as grave as the gravest of it.",
    why: "Read in the wrong unit everything is 25 times too large or too small.",
    formula: "signs >= 2",
    example: "(ALL DIMENSIONS IN MM)\nG20 G90 G94\nT3 M6\nS2500 M3\nM8\nG81 X100. Y50. Z-20. R2. F450.\nG80",
    better: "(ALL DIMENSIONS IN MM)\nG21 G90 G94\nT3 M6\nS2500 M3\nM8\nG81 X100. Y50. Z-20. R2. F450.\nG80",
    limits:
      "One sign alone is silent: sizes of mm drills in the comments of an inch program are normal. Travel counts where the dialect declares it.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { units } = context.execution;
    if (units === null || context.execution.holeCount === 0) return;
    const told = [feeds(context, units), depths(context, units), travel(context, units)].filter(
      (sign) => sign !== null,
    );
    // A comment alone is no sign, so most programs need not be searched for one.
    const named = told.length === 0 ? null : comment(context, units);
    if (named !== null) told.unshift(named);
    if (told.length < 2) return;
    const own = units === "mm" ? "G21" : "G20";
    const other = units === "mm" ? "inches" : "mm";
    const found = single(
      "units-doubtful",
      "warning",
      unitsPlace(context),
      `${own} is in force, but ${listed(told)}: the numbers look like ${other}. Way out: ${units === "mm" ? "G20" : "G21"}, or look at these numbers.`,
      { data: { measured: told.length, limit: 2, unit: "" } },
    );
    yield found;
  },
};

type Units = "mm" | "inch";

/** mm: a depth that no drilled hole is without, and one that no drill reaches (common practice). */
const SHALLOW = 1.5;
const DEEP = 400;
/** Depth over the diameter of the tool table that no drilled hole stays under, and that only special drills reach. */
const FLAT = 0.15;
const LONG = 20;

function unitsPlace(context: CheckContext): FindingPlace {
  const { execution } = context;
  const block = execution.hole(0).block;
  return { in: "program", span: context.spanOf(execution.hole(0).shape.state.from.units, block) };
}

/** Only words that speak of the whole program: a size with its unit is that of one tool. */
const MM =
  /\b(UNITS?\s*[:=]?\s*(MM|MILLIMET\w+|METRIC)|(DIMENSIONS|PROGRAM\w*|ALL|COORDINATES)\b[^()]*\b(IN\s+)?(MM|MILLIMET\w+|METRIC)\b|METRIC\s+PROGRAM)/i;
const INCH =
  /\b(UNITS?\s*[:=]?\s*(INCH\w*|IMPERIAL)|(DIMENSIONS|PROGRAM\w*|ALL|COORDINATES)\b[^()]*\b(INCH(ES)?|IMPERIAL)\b|INCH\s+PROGRAM)/i;

function comment({ execution: { blocks } }: CheckContext, units: Units): string | null {
  const other = units === "mm" ? INCH : MM;
  const own = units === "mm" ? MM : INCH;
  // Such a comment stands at the top.
  for (let line = 0; line < Math.min(blocks.count, 30); line++) {
    const block = blocks.blockAt(line);
    if (!blocks.hasComment(block)) continue;
    const text = blocks.textOf(block);
    if (own.test(text)) return null;
    if (other.test(text)) return `a comment on line ${line + 1} names ${units === "mm" ? "inches" : "mm"}`;
  }
  return null;
}

/** Every feed is implausible as it is read, and plausible in the other unit. */
function feeds(context: CheckContext, units: Units): string | null {
  const factor = units === "mm" ? 25.4 : 1 / 25.4;
  let seen = 0;
  for (const { shape, loads } of metalHoles(context)) {
    if (shape.kind === "tap" || loads.tool === null) continue;
    const f = cuttingStrokes(shape)[0]?.f ?? null;
    if (f === null || !(f > 0)) continue;
    if (!implausibleFeed(f, loads) || implausibleFeed(f * factor, loads)) return null;
    seen++;
  }
  return seen === 0 ? null : "every feed fits the tools only in the other unit";
}

function depths(context: CheckContext, units: Units): string | null {
  let most = 0;
  let holes = 0;
  let out = 0;
  for (const { shape, loads } of anyHoles(context)) {
    const { startZ, endZ } = shape;
    if (endZ === null || startZ === null || loads.tool?.family === "spot" || loads.tool?.family === "countersink")
      continue;
    const depth = Math.abs(Math.min(startZ, shape.surfaceZ) - endZ);
    most = Math.max(most, depth);
    const D = loads.tool?.DC ?? null;
    holes++;
    if (D !== null && loads.tool?.assumed !== true && (units === "mm" ? depth < FLAT * D : depth > LONG * D)) out++;
  }
  if (units === "mm" && most > 0 && most < SHALLOW) return `no hole is deeper than ${sayLength(most, context)}`;
  if (units === "inch" && most > DEEP) return `a hole is ${sayLength(most, context)} deep`;
  if (holes === 0 || out < holes) return null;
  return units === "mm" ? `no hole is ${FLAT} x D deep` : `every hole is more than ${LONG} x D deep`;
}

function travel(context: CheckContext, units: Units): string | null {
  if (units === "mm") return null;
  const { execution, setup } = context;
  const { x } = setup.dialect.travel;
  if (x === null) return null;
  for (const operation of execution.operations) {
    if (operation.holeCount === 0) continue;
    for (const i of [operation.firstHole, operation.firstHole + operation.holeCount - 1]) {
      const at = execution.hole(i).at[0];
      if (at !== null && Math.abs(at) > x)
        return `X ${sayLength(at, context)} is beyond the travel of ${sayLength(x, context)}`;
    }
  }
  return null;
}
