/**
 * The fix for a feed that is too high in an interrupted cut: the hole in long hand, slow where the drill is in metal for
 * part of the turn, at the programmed feed where it is whole in metal. It is offered only where a review of the edited
 * text proves that nothing else changes.
 */
import { metalHoles } from "../../checks/cause.ts";
import { createContext } from "../../checks/context.ts";
import { limitsPassed } from "../../checks/interrupted.ts";
import type { Finding } from "../../checks/types.ts";
import { NO_FEED_FITS } from "../../loads/allowed-feed.ts";
import type { Execution, HoleShape, Stroke } from "../../program/types.ts";
import { turns } from "../../setup/dialect.ts";
import { lineName } from "../places.ts";
import type { Review } from "../types.ts";
import { exactStop } from "./exact-stop.ts";
import { disproved } from "./proof.ts";
import type { SlowZone } from "./steps.ts";
import { traceOf } from "./trace.ts";
import { CannotWrite, cannot, type Fix, type LineEdit } from "./types.ts";
import { type Meant, MOST_HOLES, tooMany, waysToWrite } from "./ways.ts";

export const SPLIT_FEED_CHECKS: ReadonlySet<string> = new Set(["interrupted-feed", "interrupted-exit"]);

/** By review as well: a finding may outlive the lines that its fix names. */
const made = new WeakMap<Review, Map<Finding, Fix>>();

/** @returns the same answer for a finding of a review, however often it is asked for */
export function splitFeed(review: Review, finding: Finding): Fix {
  let fixes = made.get(review);
  if (fixes === undefined) {
    fixes = new Map();
    made.set(review, fixes);
  }
  let fix = fixes.get(finding);
  if (fix === undefined) {
    fix = guarded(review, finding);
    fixes.set(finding, fix);
  }
  return fix;
}

function guarded(review: Review, finding: Finding): Fix {
  try {
    return worked(review, finding);
  } catch (cause) {
    // A fault of ours offers nothing, which is sound.
    return { offered: false, why: cause instanceof CannotWrite ? cause.message : "a fault in Swarfline" };
  }
}

function worked(review: Review, finding: Finding): Fix {
  if (!SPLIT_FEED_CHECKS.has(finding.check)) cannot("it is no matter of an interrupted cut");
  const variant = review.input.deleteOn === true ? "on" : "off";
  if (finding.variant !== undefined && finding.variant !== variant)
    cannot(`it stands only with block deletes ${finding.variant}`);
  const shapes = shapesTooFast(review, finding);
  if (shapes.size === 0) cannot("the feed does not come from a word of this program");
  const holes = holesOf(review, shapes);
  const trace = traceOf(review.execution);
  const first = holes[0]?.block ?? 0;
  if (exactStop(review.execution, first)) cannot("G61 makes the axes stop at the end of each block");
  let why = "";
  for (const way of waysToWrite(review, trace, holes)) {
    if ("why" in way) {
      why ||= way.why;
      continue;
    }
    const meant = new Set(way.meant);
    const disproof = disproved(review, finding.check, way.edits, meant);
    if (disproof === "") return { offered: true, title: titleOf(holes, way.edits, review.execution), edits: way.edits };
    why ||= `written out, ${disproof}`;
  }
  return cannot(why);
}

/** Shapes with a stroke at the finding's F word that is too fast for one of their zones, and all their slow zones. */
function shapesTooFast(review: Review, finding: Finding): Map<HoleShape, readonly SlowZone[]> {
  const { execution, setup } = review;
  const { place } = finding;
  const found = new Map<HoleShape, readonly SlowZone[]>();
  if (place.in !== "program") return found;
  const isMeant = ({ fRef }: Stroke): boolean => {
    const span = fRef === 0 ? null : execution.blocks.spanOf(fRef);
    return span !== null && span.block === place.span.block && span.start === place.span.start;
  };
  for (const hole of metalHoles(createContext(execution, setup, (shape) => review.loads(shape)))) {
    const { strokes } = hole.shape;
    if (!strokes.some((stroke) => isMeant(stroke) && limitsPassed(hole, stroke).length > 0)) continue;
    const limits = strokes.flatMap((stroke) => limitsPassed(hole, stroke));
    if (limits.some(({ zone }) => zone.allowedWhy.includes(NO_FEED_FITS))) cannot("no feed fits this cut");
    const zones = limits.map(({ zone, allowed }) => ({
      fromZ: zone.fromZ,
      toZ: zone.toZ,
      where: zone.where,
      allowed,
    }));
    found.set(hole.shape, zones);
  }
  return found;
}

function holesOf(review: Review, shapes: ReadonlyMap<HoleShape, readonly SlowZone[]>): Meant[] {
  const { execution } = review;
  const { blocks } = execution;
  const holes: Meant[] = [];
  for (let index = 0; index < execution.holeCount; index++) {
    const shape = execution.shapeOf(index);
    const zones = shapes.get(shape);
    if (zones === undefined) continue;
    if (holes.length === MOST_HOLES) cannot(tooMany());
    const { block, calls } = execution.hole(index);
    const name = lineName(blocks, block);
    if (calls.length > 0 || blocks.lineOf(block) >= review.input.lines.count)
      cannot(`the hole of ${name} is drilled in a called program`);
    if (shape.axis !== "z") cannot(`the hole of ${name} is not drilled along Z`);
    if (shape.state.distance === 91) cannot(`the hole of ${name} is written in increments (G91)`);
    if (!shape.longHand) {
      if (turns(execution.setup.dialect)) cannot("cycles of turning centres are not written out");
      if (shape.state.plane !== 17) cannot(`the cycle of ${name} does not run in G17`);
      if (shape.kind !== "drill") cannot(`the cycle of ${name} does not drill in one stroke`);
      if (shape.dwell > 0) cannot(`the cycle of ${name} dwells at the bottom`);
      if (shape.strokes.length !== 1) cannot(`the hole of ${name} is drilled by more than one block`);
    }
    holes.push({ index, shape, block, zones, name });
  }
  return holes;
}

function titleOf(holes: readonly Meant[], edits: readonly LineEdit[], { blocks }: Execution): string {
  const [first] = holes;
  const what = holes.length === 1 ? `the hole of ${first?.name}` : `${holes.length} holes`;
  const own = edits.find(({ line }) => line === blocks.lineOf(first?.block ?? 0)) ?? edits[0];
  const feeds = own?.texts.flatMap((text) => {
    // A rapid may carry an F for what comes later.
    const [, z, f] = /^(?!.*G0*0\D).*(Z[-+\d.]+)\s*(F[\d.]+)/i.exec(text.replace(/\(.*?\)/g, "")) ?? [];
    return z === undefined || f === undefined ? [] : `${f.toUpperCase()} to ${z.toUpperCase()}`;
  });
  return `Write ${what} in long hand with the feed split: ${feeds?.join(", ")}`;
}
