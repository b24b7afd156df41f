/** The proof that edited lines drill the same holes without the fault: the text is reviewed anew and compared. */
import { readBlocks } from "../../../grammar/read.ts";
import type { FindingSeverity } from "../../checks/types.ts";
import type { Execution, HoleShape } from "../../program/types.ts";
import { LineStore } from "../../text/lines.ts";
import { review as reviewProgram } from "../review.ts";
import type { Review, ReviewInput } from "../types.ts";
import { differs } from "./same-motions.ts";
import { traceOf } from "./trace.ts";
import type { LineEdit } from "./types.ts";

/** The program with the lines of a fix in it, each ended as the line that it takes the place of. */
export function editedText(lines: LineStore, edits: readonly LineEdit[]): string {
  const by = new Map(edits.map((edit) => [edit.line, edit.texts]));
  const parts: string[] = [];
  for (let i = 0; i < lines.count; i++) {
    parts.push((by.get(i) ?? [lines.line(i)]).join(eolFor(lines, i)), lines.eol(i));
  }
  return parts.join("");
}

/** Line end for new lines in the place of one; the last line of a text may have none of its own. */
export function eolFor(lines: LineStore, line: number): string {
  return lines.eol(line) || lines.eol(line - 1) || "\n";
}

/**
 * @param check the check whose finding must be gone
 * @param meant blocks in which the feed may fall
 * @returns what is not as it was; empty: all holds
 */
export function disproved(
  before: Review,
  check: string,
  edits: readonly LineEdit[],
  meant: ReadonlySet<number>,
): string {
  const lines = LineStore.from(editedText(before.input.lines, edits));
  const input = { ...before.input, lines, blocks: readBlocks(lines) };
  const after = reviewProgram(input);
  const told = newFindings(before, after, check) || unlike(before, after, meant);
  if (told !== "" || !before.execution.skips) return told;
  // With blocks to skip the program is two programs, and the lines are in both.
  const deleteOn = before.input.deleteOn !== true;
  const other = (of: ReviewInput): Review => reviewProgram({ ...of, deleteOn });
  return unlike(other(before.input), other(input), meant);
}

function unlike(before: Review, after: Review, meant: ReadonlySet<number>): string {
  const [old, now] = [before.execution, after.execution];
  if (old.holeCount !== now.holeCount) return "the holes would not be the same";
  // Thousands of holes share a few shapes: a pair of them is compared once.
  const alike = new Map<HoleShape, HoleShape>();
  for (let i = 0; i < old.holeCount; i++) {
    const [a, b] = [old.shapeOf(i), now.shapeOf(i)];
    if (!samePlace(old, now, i)) return "a hole would not be the same";
    if (alike.get(a) === b) continue;
    if (!sameShape(a, b)) return "a hole would not be the same";
    if (!sameNotes(a, b)) return "a cut note would rule other holes";
    alike.set(a, b);
  }
  return differs(traceOf(old).motions, traceOf(now).motions, meant);
}

/** mm */
const FINE = 1e-4;
const near = (a: number | null, b: number | null): boolean =>
  a === b || (a !== null && b !== null && Math.abs(a - b) < FINE);

function samePlace({ places: a }: Execution, { places: b }: Execution, hole: number): boolean {
  const same = (x = Number.NaN, y = Number.NaN): boolean =>
    Math.abs(x - y) < FINE || (Number.isNaN(x) && Number.isNaN(y));
  return same(a.x[hole], b.x[hole]) && same(a.y[hole], b.y[hole]);
}

function sameShape(a: HoleShape, b: HoleShape): boolean {
  return (
    near(a.startZ, b.startZ) &&
    near(a.endZ, b.endZ) &&
    near(a.surfaceZ, b.surfaceZ) &&
    a.kind === b.kind &&
    a.axis === b.axis &&
    a.operation === b.operation &&
    a.tool === b.tool &&
    a.wcs === b.wcs &&
    a.dwell === b.dwell
  );
}

/** What is known of the entry and the exit of a hole. */
function sameNotes(a: HoleShape, b: HoleShape): boolean {
  return JSON.stringify([a.entry?.form, a.exit?.form]) === JSON.stringify([b.entry?.form, b.exit?.form]);
}

function newFindings(before: Review, after: Review, check: string): string {
  // A cause over many holes has the level of its worst: taken apart, some of them are told as less.
  for (const severities of [["error"], ["error", "warning"]] as const) {
    const [old, now] = [counts(before, severities), counts(after, severities)];
    for (const [id, count] of now) {
      if (id !== check && count > (old.get(id) ?? 0)) return `${id} would speak`;
    }
  }
  const [old, now] = [total(before, check), total(after, check)];
  return now < old ? "" : `${check} would still speak`;
}

/** Holes that each check speaks of: one cause may stand on two F words afterwards. */
function counts({ findings }: Review, severities: readonly FindingSeverity[]): Map<string, number> {
  const found = new Map<string, number>();
  for (const finding of findings) {
    if (severities.includes(finding.severity))
      found.set(finding.check, (found.get(finding.check) ?? 0) + finding.count);
  }
  return found;
}

const total = ({ findings }: Review, check: string): number =>
  findings.filter((finding) => finding.check === check).reduce((sum, { count }) => sum + count, 0);
