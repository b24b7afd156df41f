/** `check --format text`: findings as a person reads them in a terminal. */
import pc from "picocolors";
import type { FindingSeverity } from "../../checks/types.ts";
import { CAUTION_LINE } from "../../report/cautions.ts";
import type { CliIo } from "../io.ts";
import { countFindings, type Placed } from "../public.ts";
import type { CheckResult } from "../result.ts";
import { clean, excerpt, plural, wrap } from "./terminal.ts";

export type Colours = ReturnType<typeof pc.createColors>;

export function colours(io: Pick<CliIo, "colours">): Colours {
  return pc.createColors(io.colours);
}

const INDENT = "    ";

export function checkText(results: readonly CheckResult[], io: CliIo): string {
  const colour = colours(io);
  const out: string[] = [];
  for (const result of results) {
    if (result.findings.length === 0) continue;
    out.push(colour.bold(colour.underline(clean(result.program))));
    if (result.setup !== "") out.push(...wrap(clean(result.setup), io.width).map(colour.dim));
    for (const placed of result.findings) out.push("", ...one(placed, result.program, io, colour));
    out.push("");
  }
  out.push(...summary(results, io, colour), "");
  return out.join("\n");
}

function one({ finding, text }: Placed, program: string, io: CliIo, colour: Colours): string[] {
  const room = io.width - INDENT.length;
  const file = finding.file === program ? "" : `${clean(finding.file)}:`;
  const place = `${file}${finding.line}:${finding.column}`;
  const count = finding.count > 1 ? `  ×${finding.count}` : "";
  const severity = say(finding.severity, colour);
  const out = [`  ${colour.bold(place)}  ${severity}  ${colour.cyan(finding.check)}${colour.dim(count)}`];
  out.push(...wrap(clean(finding.message), room).map((line) => INDENT + line));
  if (text.trim() !== "") {
    const end = finding.endLine > finding.line ? text.length : finding.endColumn - 1;
    const { source, caret } = excerpt(text, finding.column - 1, end, room - 2);
    const bar = colour.dim("│");
    out.push(`${INDENT}${bar} ${source}`.trimEnd(), `${INDENT}${bar} ${paint(finding.severity, colour)(caret)}`);
  }
  for (const related of finding.related) {
    const where = `${related.file === program ? "" : `${clean(related.file)}:`}${related.line}:${related.column}`;
    const lines = wrap(`${where}  ${clean(related.message)}`, room);
    out.push(...lines.map((line) => INDENT + colour.dim(line)));
  }
  return out;
}

function paint(severity: FindingSeverity, colour: Colours): (text: string) => string {
  return severity === "error" ? colour.red : severity === "warning" ? colour.yellow : colour.blue;
}

function say(severity: FindingSeverity, colour: Colours): string {
  return colour.bold(paint(severity, colour)(severity));
}

const NAMED = 3;

/** A program that drills nothing passes any check: whoever reads the summary must know. */
function withoutHoles(results: readonly CheckResult[], io: CliIo): string[] {
  const without = results.filter((result) => result.withoutHoles);
  if (without.length === 0) return [];
  const names = without.slice(0, NAMED).map(({ program }) => clean(program));
  const more = without.length > NAMED ? ` and ${without.length - NAMED} more` : "";
  return wrap(`No hole is drilled in ${names.join(", ")}${more}: nothing was checked at the drill.`, io.width);
}

function summary(results: readonly CheckResult[], io: CliIo, colour: Colours): string[] {
  const { errors, warnings, infos } = countFindings(
    results.flatMap(({ findings }) => findings.map((placed) => placed.finding)),
  );
  const parts = [
    ...(errors > 0 ? [colour.red(plural(errors, "error"))] : []),
    ...(warnings > 0 ? [colour.yellow(plural(warnings, "warning"))] : []),
    ...(infos > 0 ? [colour.blue(plural(infos, "info"))] : []),
  ];
  const touched = results.filter(({ findings }) => findings.length > 0).length;
  const programs = plural(results.length, "program");
  const where = results.length === 1 || touched === results.length ? programs : `${touched} of ${programs}`;
  const line = parts.length === 0 ? `${colour.green("No findings")} in ${programs}` : `${parts.join(", ")} in ${where}`;
  return [colour.bold(line), ...withoutHoles(results, io), ...wrap(CAUTION_LINE, io.width).map(colour.dim)];
}
