/** `explain --format text`: what each group of holes asks of drill and machine, beside what they can give. */

import { entryWords, PARTLY_IN_METAL } from "../../checks/entry-words.ts";
import type { Engagement, HoleLoads } from "../../loads/types.ts";
import { SQUARE_AXES, wholeFrom } from "../../pictures/engagement-of-hole.ts";
import type { Hole, HoleShape, Operation } from "../../program/types.ts";
import { CAUTION_LINE } from "../../report/cautions.ts";
import { lineName } from "../../review/places.ts";
import type { Review } from "../../review/types.ts";
import type { Quantity, UnitSystem } from "../../units/quantities.ts";
import { say, sayOne } from "../../units/wording.ts";
import type { CliIo } from "../io.ts";
import { whyNoHoles } from "../no-holes.ts";
import { saySetup } from "../result.ts";
import { derivationLines } from "./derivation-text.ts";
import { engagementLines } from "./engagement-table.ts";
import { FAMILY } from "./family.ts";
import { bare, loadTable } from "./load-table.ts";
import { notKnownLines, notKnownOf, shared, without } from "./not-known.ts";
import { clean, plural, table, wrap } from "./terminal.ts";
import { colours } from "./text.ts";
import { wayOutLines } from "./way-out.ts";

/** Holes drilled alike, in the order of their first. */
export interface Group {
  readonly operation: Operation;
  readonly shape: HoleShape;
  readonly holes: readonly Hole[];
}

const DERIVED = [
  "vc",
  "n",
  "f",
  "vf",
  "mrr",
  "allowedFeed",
  "torque",
  "power",
  "thrust",
  "limits",
  "pointLength",
] as const;

/** @param line the line that was asked for, from 1: its holes with their derivations; null: the whole program */
export function explainText(
  program: string,
  groups: readonly Group[],
  review: Review,
  line: number | null,
  io: CliIo,
): string {
  const colour = colours(io);
  const system = review.execution.units ?? "mm";
  const units = review.execution.units === null ? "units not declared" : `${system} program`;
  const out = [`${colour.bold(colour.underline(clean(program)))}  ${units}`];
  out.push(...wrap(clean(saySetup(review.setup, io)), io.width).map(colour.dim));
  const unknown = groups.map((group) => notKnownOf(review.loads(group.shape)));
  const ofAll = shared(unknown);
  let operation = -1;
  for (const [i, group] of groups.entries()) {
    if (group.operation.index !== operation) {
      operation = group.operation.index;
      out.push("", ...wrap(sayOperation(group, review, system), io.width).map(colour.bold));
    }
    const body = [
      ...wrap(sayHoles(group, review, system), io.width - 2),
      ...describe(group.shape, review.loads(group.shape), system, io.width - 4).map((line) => `  ${line}`),
    ];
    const left = notKnownLines("not known", without(unknown[i], ofAll), io.width - 4);
    if (left.length > 0) body.push("", ...left.map((line) => `  ${line}`));
    out.push("", ...body.map((line) => `  ${line}`.trimEnd()));
    if (line !== null) {
      const told = new Set<string>();
      const loads = review.loads(group.shape);
      for (const what of DERIVED) {
        const derivation = loads.derive(what);
        if (derivation === null) continue;
        const lines = derivationLines(derivation, system, io.width - 4, told);
        out.push("", ...lines.map((line, i) => `    ${i === 0 ? colour.cyan(line) : line}`));
      }
    }
  }
  if (line !== null) {
    const [head, ...rows] = wayOutLines(review, line, io.width);
    if (head !== undefined) out.push("", colour.bold(head), ...rows);
  }
  const [head, ...rows] = notKnownLines("Not known for all these holes", ofAll, io.width);
  if (head !== undefined) out.push("", colour.bold(head), ...rows);
  if (groups.length === 0) out.push("", ...whyNoHoles(review, line).flatMap((why) => wrap(clean(why), io.width)));
  out.push("", ...wrap(CAUTION_LINE, io.width).map(colour.dim), "");
  return out.join("\n");
}

function sayOperation({ operation, shape }: Group, review: Review, system: UnitSystem): string {
  const parts = [`Operation ${operation.index + 1}`];
  const tool = operation.tool === null ? null : review.execution.tool(operation.tool);
  if (operation.tool === null) parts.push("no tool called");
  else if (tool === null) parts.push(`T${operation.tool}, not in the setup`);
  else {
    const assumed = tool.assumed ? ", assumed from a comment" : "";
    parts.push(`T${tool.T} ${FAMILY[tool.family]} ${say(tool.DC, "length", system)}${assumed}`);
  }
  parts.push(shape.wcs, plural(operation.holeCount, "hole"));
  return parts.join(" · ");
}

const SHOWN_HOLES = 6;

function sayHoles({ shape, holes }: Group, review: Review, system: UnitSystem): string {
  const { blocks } = review.execution;
  const lineOf = (block: number) => blocks.lineOf(block) + 1;
  const lines = [...new Set(holes.map((hole) => lineName(blocks, hole.block)))];
  const where = lines.length === 1 ? lines[0] : `${lines[0]} to ${lines.at(-1)?.replace(/^line /, "")}`;
  const chains = new Set(holes.map((hole) => hole.calls.map(lineOf).join(" > ")));
  chains.delete("");
  const shownChains = [...chains].slice(0, SHOWN_HOLES).join(", ");
  const called =
    chains.size === 0
      ? ""
      : ` (called from ${chains.size === 1 ? "line" : "lines"} ${shownChains}${chains.size > SHOWN_HOLES ? ", ..." : ""})`;
  const names = SQUARE_AXES[shape.axis];
  const at = holes.slice(0, SHOWN_HOLES).map((hole) =>
    // A position stays in one line.
    hole.at.map((value, i) => names[i] + (value === null ? "?" : bare(value, "length", system))).join("\u00a0"),
  );
  const more = holes.length > SHOWN_HOLES ? ` and ${holes.length - SHOWN_HOLES} more` : "";
  return `${plural(holes.length, "hole")}, ${where}${called}: ${at.join(", ")}${more}`;
}

function describe(shape: HoleShape, loads: HoleLoads, system: UnitSystem, width: number): string[] {
  const s = (value: number, quantity: Quantity) => say(value, quantity, system);
  const rows: [string, string][] = [];
  const add = (label: string, value: string) => rows.push([label, value]);
  const kind = `${KIND[shape.kind]}${shape.longHand ? ", written out" : ""}`;
  if (shape.startZ !== null && shape.endZ !== null) {
    const strokes = shape.strokes.length > 1 ? `, ${shape.strokes.length} strokes` : "";
    const dwell = shape.dwell > 0 ? `, dwell ${s(shape.dwell, "time")}` : "";
    const axis = shape.axis.toUpperCase();
    add("motion", `${kind}, ${axis} ${s(shape.startZ, "length")} to ${s(shape.endZ, "length")}${strokes}${dwell}`);
  } else add("motion", kind);
  if (loads.n !== null) add("speed n", `${s(loads.n, "rotation")} ${shape.state.spindle}`);
  if (loads.vc !== null) add("cutting speed vc", s(loads.vc, "speed") + inWindow(loads.window?.vc, "speed", system));
  if (loads.f !== null) add("feed f", s(loads.f, "feedPerRev") + inWindow(loads.window?.f, "feedPerRev", system));
  if (loads.fz !== null && loads.fz !== loads.f) add("per edge fz", s(loads.fz, "feedPerRev"));
  if (loads.vf !== null) add("feed rate vf", s(loads.vf, "feedRate"));
  if (loads.mrr !== null) add("removal", s(loads.mrr, "removal"));
  if (loads.feedTimeMin !== null) add("feed time", sayOne(loads.feedTimeMin * 60, "time", system));
  if (loads.depthRatio !== null) add("depth", `${loads.depthRatio.toFixed(1)} × diameter`);
  const { kinds, pressure, flow } = loads.coolant;
  add(
    "coolant",
    [
      kinds.length === 0 ? "off" : kinds.join(", "),
      ...(pressure === null ? [] : [s(pressure, "pressure")]),
      ...(flow === null ? [] : [s(flow, "flow")]),
    ].join(", "),
  );
  if (loads.engagement !== null) add("entry", sayEntry(loads, system));
  const { engagement } = loads;
  if (engagement !== null && engagement.zones.length > 0)
    add(
      "most metal",
      `${Math.round(engagement.most.area * 100)} % of the area, first at ${shape.axis.toUpperCase()} ${s(engagement.most.z, "length")}: torque, power and thrust stand for it`,
    );
  const out = table(rows, new Set(), width);
  const bands = loadTable(loads, system, width);
  if (bands.length > 0) out.push("", ...bands);
  out.push(...engagementLines(loads, system, width));
  return out;
}

const KIND: Readonly<Record<HoleShape["kind"], string>> = {
  drill: "drilled in one stroke",
  peck: "pecked",
  "chip-break": "with chip breaking",
  tap: "tapped",
  bore: "bored",
  "back-bore": "back bored",
};

function inWindow(
  window: readonly [number, number, number] | null | undefined,
  quantity: Quantity,
  system: UnitSystem,
): string {
  if (window === null || window === undefined) return "";
  const range = (one: UnitSystem) => `${bare(window[0], quantity, one)} to ${sayOne(window[2], quantity, one)}`;
  return `; window ${range(system)} (${range(system === "mm" ? "inch" : "mm")})`;
}

function sayForm({ form, source }: Engagement, system: UnitSystem): string {
  const words = form === null ? PARTLY_IN_METAL : entryWords(form, system);
  return `${words} (${TOLD_BY[source]})`;
}

const TOLD_BY: Readonly<Record<Engagement["source"], string>> = {
  flat: "nothing else being told",
  note: "by a cut note",
  entry: "by the setup",
  stock: "by the stock and the holes drilled before",
};

function sayEntry({ engagement, shape }: HoleLoads, system: UnitSystem): string {
  if (engagement === null) return "";
  const parts = [engagement.source === "flat" ? "flat" : sayForm(engagement, system)];
  if (engagement.skin && engagement.form?.kind !== "skin") parts.push("through skin");
  if (engagement.class !== "none") {
    const whole = wholeFrom(engagement, shape.endZ);
    const full = whole === null ? "never whole in this hole" : `whole at ${say(whole, "length", system)}`;
    parts.push(`class ${engagement.class}`, `metal from ${say(engagement.firstContactZ, "length", system)}, ${full}`);
  }
  if (engagement.allowedFeed !== null) {
    const why = engagement.allowedWhy === "" ? "" : ` (${clean(engagement.allowedWhy)})`;
    parts.push(`feed at most ${say(engagement.allowedFeed, "feedPerRev", system)}${why}`);
  }
  if (engagement.advice !== "") parts.push(clean(engagement.advice));
  return parts.join("; ");
}
