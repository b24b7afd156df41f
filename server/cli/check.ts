/** `swarfline check [files|globs|-]`: findings of programs, as text, JSON or SARIF. */
import { NOT_USED } from "../checks/setup.ts";
import type { FindingSeverity } from "../checks/types.ts";
import { checkJson } from "./formats/json.ts";
import { checkSarif } from "./formats/sarif.ts";
import { checkText } from "./formats/text.ts";
import { findInputs } from "./inputs.ts";
import { type CliIo, UsageError } from "./io.ts";
import { Loader, type Reviewed } from "./load.ts";
import { oneOf, type RawOptions, readCommonOptions } from "./options.ts";
import { printSetups } from "./print-setup.ts";
import { type Placed, placeFindings, refusal } from "./public.ts";
import { type CheckResult, saySetup } from "./result.ts";

export const CHECK_FORMATS = ["text", "json", "sarif"] as const;
export const FAIL_ON = ["error", "warning", "info", "never"] as const;

export interface CheckOptions extends RawOptions {
  readonly format: string;
  readonly failOn: string;
}

/** @returns 1 when there is a finding at or over `--fail-on`, 3 when a check broke down, else 0 */
export async function check(files: readonly string[], raw: CheckOptions, io: CliIo): Promise<number> {
  const format = oneOf("--format", raw.format, CHECK_FORMATS);
  const failOn = oneOf("--fail-on", raw.failOn, FAIL_ON);
  const options = readCommonOptions(raw, io);
  if (options.printSetup && format === "sarif")
    throw new UsageError("--print-setup takes --format text, json; got sarif.");
  const loader = new Loader(options, io);
  const results: CheckResult[] = [];
  const resolved: Reviewed[] = [];
  for (const input of findInputs(files, io, options.stdinName)) {
    const { shown: program, path } = input;
    const loaded = await loader.load(input);
    if ("refused" in loaded) {
      const finding = refusal(loaded);
      results.push({
        program,
        path,
        findings: finding === null ? [] : [{ finding, text: "", context: "" }],
        setup: "",
        withoutHoles: false,
      });
    } else if (options.printSetup) {
      resolved.push(loaded);
    } else {
      const findings = placeFindings(loaded, io);
      const { setup, execution } = loaded.review;
      const withoutHoles = execution.holeCount === 0;
      results.push({ program, path, findings, setup: saySetup(setup, io), withoutHoles });
    }
  }
  if (options.printSetup) {
    printSetups(resolved, format, io);
    return 0;
  }
  const told = onceOnly(results);
  io.out(format === "json" ? checkJson(told) : format === "sarif" ? checkSarif(told, io) : checkText(told, io));
  const findings = told.flatMap((result) => result.findings.map((placed) => placed.finding));
  // A check that broke down was not done: the gate must not open on that, whatever the others say.
  if (findings.some((finding) => finding.check === "internal")) return 3;
  return findings.some((finding) => fails(finding.severity, failOn)) ? 1 : 0;
}

/** A mistake in a setup that several programs share is one finding, told with the first for which it is gravest. */
function onceOnly(results: readonly CheckResult[]): CheckResult[] {
  const first = new Map<string, Placed>();
  const keyOf = ({ file, line, column, check, message }: Placed["finding"]) =>
    `${file}\n${line}:${column}\n${check}\n${message.endsWith(NOT_USED) ? message.slice(0, -NOT_USED.length) : message}`;
  for (const { program, findings } of results) {
    for (const placed of findings) {
      const { finding } = placed;
      if (finding.file === program) continue;
      const told = first.get(keyOf(finding));
      if (told === undefined || graver(finding.severity, told.finding.severity)) first.set(keyOf(finding), placed);
    }
  }
  return results.map((result) => ({
    ...result,
    findings: result.findings.filter(
      (placed) => placed.finding.file === result.program || first.get(keyOf(placed.finding)) === placed,
    ),
  }));
}

function graver(a: FindingSeverity, b: FindingSeverity): boolean {
  return FAIL_ON.indexOf(a) < FAIL_ON.indexOf(b);
}

function fails(severity: FindingSeverity, level: (typeof FAIL_ON)[number]): boolean {
  if (level === "never") return false;
  return FAIL_ON.indexOf(severity) <= FAIL_ON.indexOf(level);
}
