/** Findings in their public form: files and lines as a person and other programs count them. */

import type { Finding, FindingPlace, FindingSeverity } from "../checks/types.ts";
import { unreadableFile } from "../checks/unreadable-file.ts";
import { type PublicPlace, publicPlace as placeOf } from "../review/places.ts";
import type { CliIo } from "./io.ts";
import type { Refused, Reviewed } from "./load.ts";
import { folderOf, referred, shown } from "./paths.ts";

export interface PublicFinding extends PublicPlace {
  readonly check: string;
  readonly severity: FindingSeverity;
  readonly message: string;
  readonly count: number;
  readonly related: readonly {
    readonly file: string;
    readonly line: number;
    readonly column: number;
    readonly message: string;
  }[];
  readonly data: { readonly measured: number | null; readonly limit: number | null; readonly unit: string } | null;
}

/** A finding with what a report needs beside it: nothing of this is public. */
export interface Placed {
  readonly finding: PublicFinding;
  /** The line it stands on, without its end. */
  readonly text: string;
  /** What names its surroundings however the lines move: the tool of its operation. */
  readonly context: string;
}

/** null where the setup switches it off. */
export function refusal(refused: Refused): PublicFinding | null {
  if (refused.severity === "off") return null;
  return {
    check: unreadableFile.id,
    severity: refused.severity,
    file: refused.input.shown,
    line: 1,
    column: 1,
    endLine: 1,
    endColumn: 1,
    message: refused.refused,
    count: 1,
    related: [],
    data: null,
  };
}

/** The findings of a program in the order of its lines; those of other files (the setup) first. */
export function placeFindings(reviewed: Reviewed, io: CliIo): Placed[] {
  const others = new Map<string, readonly string[]>();
  const textOf = (place: FindingPlace, line: number) => {
    if (place.in === "program") return reviewed.lines.line(line);
    let lines = others.get(place.file);
    if (lines === undefined) {
      lines = (reviewed.sources.get(place.file) ?? "").split(/\r\n|\r|\n/);
      others.set(place.file, lines);
    }
    return lines[line] ?? "";
  };
  const placed = reviewed.review.findings.map((finding) => {
    const place = publicPlace(finding.place, reviewed, io);
    const tool = reviewed.review.execution.operations[finding.operation]?.tool ?? null;
    return {
      finding: publicFinding(finding, place, reviewed, io),
      text: textOf(finding.place, place.line - 1),
      context: tool === null ? "" : `T${tool}`,
    };
  });
  const own = reviewed.input.shown;
  return placed.sort(
    (a, b) =>
      Number(a.finding.file === own) - Number(b.finding.file === own) ||
      compare(a.finding.file, b.finding.file) ||
      a.finding.line - b.finding.line ||
      a.finding.column - b.finding.column ||
      compare(a.finding.check, b.finding.check),
  );
}

function publicFinding(finding: Finding, place: PublicPlace, reviewed: Reviewed, io: CliIo): PublicFinding {
  return {
    check: finding.check,
    severity: finding.severity,
    ...place,
    message: finding.message,
    count: finding.count,
    related: finding.related.map((related) => {
      const { file, line, column } = publicPlace(related.place, reviewed, io);
      return { file, line, column, message: related.message };
    }),
    data:
      finding.data === null
        ? null
        : { measured: tidy(finding.data.measured), limit: tidy(finding.data.limit), unit: finding.data.unit },
  };
}

function publicPlace(place: FindingPlace, reviewed: Reviewed, io: CliIo): PublicPlace {
  const { input, review } = reviewed;
  const found = placeOf(place, input.shown, review.execution.blocks);
  if (place.in === "program") return found;
  const from = folderOf(review.input.setupFile ?? input.path, io);
  return { ...found, file: shown(referred(place.file, { windows: io.windows, cwd: from }), io) };
}

/** Below this a length, share or load is what binary fractions left of nothing. */
const NOTHING = 1e-12;

/** Ten digits: what binary fractions add behind them is noise. NaN and infinities never leave the house: null. */
export function tidy(value: number | null | undefined): number | null {
  if (value === undefined || value === null || !Number.isFinite(value)) return null;
  return Math.abs(value) < NOTHING ? 0 : Number(value.toPrecision(10));
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

export interface Counts {
  readonly errors: number;
  readonly warnings: number;
  readonly infos: number;
}

export function countFindings(findings: Iterable<{ readonly severity: FindingSeverity }>): Counts {
  const counts = { error: 0, warning: 0, info: 0 };
  for (const { severity } of findings) counts[severity]++;
  return { errors: counts.error, warnings: counts.warning, infos: counts.info };
}
