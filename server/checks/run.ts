import type { HoleLoads } from "../loads/types.ts";
import type { Execution, HoleShape } from "../program/types.ts";
import type { ResolvedSetup } from "../setup/types.ts";
import { applyAllowances } from "./allow.ts";
import { withCalls } from "./calls.ts";
import { createContext } from "./context.ts";
import { FAMILY_KEYS, levelIn } from "./family.ts";
import { setupKeyPlace } from "./in-setup.ts";
import { internalFinding } from "./internal.ts";
import { notAMachiningProgram } from "./not-a-machining-program.ts";
import { oncePerPlace } from "./once.ts";
import { CHECKS, checkById } from "./registry.ts";
import type { Check, CheckContext, Finding } from "./types.ts";
import { withoutUnitBound } from "./unit-bound.ts";

/**
 * Runs every check on one execution.
 * @param also findings that were made elsewhere and go under the same severities
 * @param loads loads of a shape; may throw: that fails the check that asked, not the others
 * @returns findings in order of place, with the severities of the setup; those set to `off` are left out
 */
export function runChecks(
  execution: Execution,
  setup: ResolvedSetup,
  loads: (shape: HoleShape) => HoleLoads,
  also: readonly Finding[] = [],
  checks: readonly Check[] = CHECKS,
): Finding[] {
  const context = createContext(execution, setup, loads);
  const findings: Finding[] = [];
  const take = (finding: Finding): void => {
    const check = checkById(finding.check);
    const level = check === undefined ? setup.severity.get(finding.check) : levelIn(setup.severity, check);
    if (level === "off") return;
    findings.push(level === undefined ? finding : { ...finding, severity: level });
  };
  for (const finding of also) take(finding);
  for (const check of checks) {
    if (levelIn(setup.severity, check) === "off") continue;
    for (const finding of guarded(check, context)) take(finding);
  }
  for (const finding of unknownIds(setup)) take(finding);
  // Words of another language would only be misread: their findings mean nothing.
  const foreign = findings.find((finding) => finding.check === notAMachiningProgram.id);
  if (foreign !== undefined) return [...findings.filter((finding) => finding.place.in === "file"), foreign];
  const causes = withoutUnitBound(findings, execution, setup.severity);
  return sorted(withCalls(oncePerPlace(withAllowances(causes, execution)), context), execution);
}

/** A check that throws gives one finding that says so; what it had found before is kept. */
function guarded(check: Check, context: CheckContext): Finding[] {
  const found: Finding[] = [];
  try {
    for (const finding of check.detect(context)) found.push(finding);
  } catch {
    found.push(internalFinding(`The check "${check.id}"`, context.execution.blocks.blockAt(0)));
  }
  return found;
}

function withAllowances(findings: Finding[], execution: Execution): Finding[] {
  try {
    return applyAllowances(findings, execution, (id) => checkById(id) !== undefined);
  } catch {
    return [...findings, internalFinding("Reading allowances", execution.blocks.blockAt(0))];
  }
}

function unknownIds(setup: ResolvedSetup): Finding[] {
  const findings: Finding[] = [];
  for (const id of setup.severity.keys()) {
    if (checkById(id) !== undefined || FAMILY_KEYS.includes(id)) continue;
    const place = setupKeyPlace(setup, `severity.${id}`);
    if (place === null) continue;
    const near = nearest(id);
    findings.push({
      check: "setup",
      severity: "warning",
      place,
      message: `There is no check "${id}": its severity changes nothing.${near === null ? "" : ` Is "${near}" meant?`}`,
      count: 1,
      related: [],
      data: null,
      operation: -1,
    });
  }
  return findings;
}

/** The id, or the family's key, that shares most of its letter pairs with a misspelt one. */
export function nearest(id: string): string | null {
  const pairs = (text: string): Set<string> => {
    const set = new Set<string>();
    for (let i = 0; i + 1 < text.length; i++) set.add(text.slice(i, i + 2));
    return set;
  };
  const wanted = pairs(id.toLowerCase());
  let best: string | null = null;
  let bestShare = 0.5;
  const known = id.startsWith("family:") ? FAMILY_KEYS : CHECKS.map((check) => check.id);
  for (const one of known) {
    const own = pairs(one);
    let common = 0;
    for (const pair of wanted) if (own.has(pair)) common++;
    const share = (2 * common) / (wanted.size + own.size);
    if (share > bestShare) {
      bestShare = share;
      best = one;
    }
  }
  return best;
}

/** Findings of more than one run, in order of place. */
export function inOrder(findings: readonly Finding[], execution: Execution): Finding[] {
  return sorted([...findings], execution);
}

/** Other files first (a broken setup explains the rest), then by line and column; one place by severity. */
function sorted(findings: Finding[], execution: Execution): Finding[] {
  const keys = findings.map((finding) => {
    const { place } = finding;
    if (place.in === "file") return { finding, file: place.file, line: place.line, column: place.column };
    return { finding, file: "", line: execution.blocks.lineOf(place.span.block), column: place.span.start };
  });
  const other = (file: string): number => (file === "" ? 1 : 0);
  keys.sort(
    (a, b) =>
      other(a.file) - other(b.file) ||
      (a.file < b.file ? -1 : a.file > b.file ? 1 : 0) ||
      a.line - b.line ||
      a.column - b.column ||
      RANK[a.finding.severity] - RANK[b.finding.severity],
  );
  return keys.map((key) => key.finding);
}

const RANK = { error: 0, warning: 1, info: 2 } as const;
