/**
 * Allowances: `(CUT ALLOW spindle-power UP TO 17 KW BY AB BECAUSE SHORT RUN)`. What someone has answered for stays
 * visible as information, up to the value that was answered for; past it the allowance is void and says so.
 */
import type { Blocks } from "../../grammar/blocks.ts";
import type { CutNote } from "../../grammar/entry.ts";
import type { Execution } from "../program/types.ts";
import type { Span } from "../text/place.ts";
import { parseQuantity, type Quantity } from "../units/quantities.ts";
import type { Finding } from "./types.ts";

type Allow = Extract<CutNote, { readonly kind: "allow" }>;

interface Allowance {
  readonly note: Allow;
  readonly span: Span;
  /** The one block it is for; else the operation; both null: the program. */
  readonly block: number | null;
  readonly operation: number | null;
}

/** @param known ids of the checks there are */
export function applyAllowances(
  findings: readonly Finding[],
  execution: Execution,
  known: (id: string) => boolean,
): Finding[] {
  const allowances = allowancesOf(execution);
  if (allowances.length === 0) return [...findings];
  const result = findings.map((finding) => {
    const allowance = allowances.find((each) => each.note.check === finding.check && covers(each, finding));
    return allowance === undefined ? finding : allowed(finding, allowance, execution);
  });
  for (const { note, span } of allowances) {
    if (!known(note.check)) result.push(noSuchCheck(note, span));
  }
  return result;
}

function allowancesOf(execution: Execution): Allowance[] {
  const { blocks, operations } = execution;
  const allowances: Allowance[] = [];
  for (const { note, span } of execution.notes) {
    if (note.kind !== "allow") continue;
    const line = blocks.lineOf(span.block);
    if (hasWords(blocks, span.block)) {
      allowances.push({ note, span, block: span.block, operation: null });
      continue;
    }
    const first = operations[0];
    const whole = first === undefined || line < blocks.lineOf(first.firstBlock);
    const following = operations.find((operation) => {
      if (operation.holeCount === 0) return false;
      return blocks.lineOf(execution.hole(operation.firstHole + operation.holeCount - 1).block) > line;
    });
    allowances.push({ note, span, block: null, operation: whole ? null : (following?.index ?? -2) });
  }
  return allowances;
}

function hasWords(blocks: Blocks, block: number): boolean {
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    const kind = blocks.kind(item);
    if (kind >= 65 && kind <= 90 && kind !== 78) return true;
  }
  return false;
}

function covers(allowance: Allowance, finding: Finding): boolean {
  if (allowance.block !== null) return finding.place.in === "program" && finding.place.span.block === allowance.block;
  return allowance.operation === null || allowance.operation === finding.operation;
}

function allowed(finding: Finding, { note, span }: Allowance, execution: Execution): Finding {
  const related = [
    ...finding.related,
    { place: { in: "program", span } as const, message: `Allowed by ${note.by}: ${note.because}` },
  ];
  const within = isWithin(finding, note, execution);
  if (within === true) {
    const message = `${finding.message} Allowed up to ${note.upTo} by ${note.by}: ${note.because}.`;
    return { ...finding, severity: "info", message, related };
  }
  const why =
    within === false
      ? `The allowance of ${note.by} ends at ${note.upTo} and is void.`
      : `The allowance of ${note.by} is void: ${within}.`;
  return { ...finding, message: `${finding.message} ${why}`, related };
}

/** Whether the value is still the one that was answered for, or why that cannot be said. */
function isWithin(finding: Finding, note: Allow, execution: Execution): boolean | string {
  const letter = /^([A-Z])\s*(?=[-+.\d])/i.exec(note.upTo)?.[1]?.toUpperCase();
  if (letter !== undefined) {
    const written = wordAt(finding, letter, execution.blocks);
    if (written === null) return `the finding stands on no ${letter} word`;
    const limit = Number(note.upTo.replace(/^[A-Z]\s*/i, ""));
    return Number.isFinite(limit) ? written <= limit + 1e-9 : `${note.upTo} is no word`;
  }
  const { data } = finding;
  if (data === null || data.measured === null) return "this finding has no value that it could end at";
  const quantity = QUANTITY[data.unit];
  const limit = quantity === undefined ? Number(note.upTo) : inBase(note.upTo, quantity, execution);
  if (typeof limit === "string") return limit;
  if (!Number.isFinite(limit)) return `${note.upTo} is no number`;
  const tooLow = data.limit !== null && data.measured < data.limit;
  return tooLow ? data.measured >= limit - 1e-9 : data.measured <= limit + 1e-9;
}

const QUANTITY: { readonly [unit: string]: Quantity } = {
  kW: "power",
  N·m: "torque",
  N: "force",
  "1/min": "rotation",
  "mm/min": "feedRate",
  "mm/rev": "feedPerRev",
  "m/min": "speed",
  mm: "length",
  "L/min": "flow",
  bar: "pressure",
  s: "time",
  "°": "angle",
};

function inBase(text: string, quantity: Quantity, execution: Execution): number | string {
  const parsed = parseQuantity(text, quantity, execution.units ?? "mm");
  return typeof parsed === "string" ? parsed : parsed.value;
}

function wordAt(finding: Finding, letter: string, blocks: Blocks): number | null {
  if (finding.place.in !== "program") return null;
  const { block, start } = finding.place.span;
  const first = blocks.firstItem(block);
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    if (blocks.start(item) === start && blocks.kind(item) === letter.charCodeAt(0)) {
      const value = blocks.value(item);
      return Number.isFinite(value) ? value : null;
    }
  }
  return null;
}

function noSuchCheck(note: Allow, span: Span): Finding {
  return {
    check: "cut-note",
    severity: "warning",
    place: { in: "program", span },
    message: `There is no check "${note.check}": this allowance changes nothing.`,
    count: 1,
    related: [],
    data: null,
    operation: -1,
  };
}
