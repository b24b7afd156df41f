/** Findings from what the interpreter met: one per place, or one per cause with a count where the cause repeats. */
import type { ProgramEvent, ProgramEventKind } from "../program/types.ts";
import type { Span } from "../text/place.ts";
import type { CheckContext, Finding, FindingSeverity } from "./types.ts";

export function eventsOf(context: CheckContext, ...kinds: readonly ProgramEventKind[]): ProgramEvent[] {
  return context.execution.events.filter((event) => kinds.includes(event.kind));
}

export interface EventWords {
  readonly severity: FindingSeverity;
  readonly message: string;
  /** Events with one key have one cause and become one finding. Without it those that say the same at one place do. */
  readonly key?: string;
  readonly data?: Finding["data"];
  /** A place more exact than the event's own. */
  readonly span?: Span;
}

/**
 * Words each event and merges those that share a key. An event that stands for several (the interpreter keeps the first
 * places of a cause and counts the rest in `data.count`) gives one finding with that count.
 */
export function eventFindings(
  check: string,
  events: Iterable<ProgramEvent>,
  word: (event: ProgramEvent) => EventWords | null,
): Finding[] {
  const found: { finding: Finding; count: number }[] = [];
  const merged = new Map<string, { finding: Finding; count: number }>();
  for (const event of events) {
    const words = word(event);
    if (words === null) continue;
    const times = typeof event.data.count === "number" ? event.data.count : 1;
    const span = words.span ?? event.span;
    const key = words.key ?? `${span.block} ${span.start} ${span.end} ${words.severity} ${words.message}`;
    const earlier = merged.get(key);
    if (earlier !== undefined) {
      earlier.count += times;
      continue;
    }
    const finding: Finding = {
      check,
      severity: words.severity,
      place: { in: "program", span },
      message: words.message,
      count: 1,
      related: [],
      data: words.data ?? null,
      operation: event.operation,
    };
    const entry = { finding, count: times };
    found.push(entry);
    merged.set(key, entry);
  }
  return found.map(({ finding, count }) =>
    count === 1 ? finding : { ...finding, count, message: `${finding.message} ${count} times, first here.` },
  );
}

/** A word or number of an event for a message; `fallback` where the event does not say. */
export function said(event: ProgramEvent, name: string, fallback: string): string {
  const value = event.data[name];
  return value === null || value === undefined ? fallback : String(value);
}

export function levelOf(event: ProgramEvent, fallback: FindingSeverity): FindingSeverity {
  const level = event.data.level;
  return level === "error" || level === "warning" || level === "info" ? level : fallback;
}

/** A text as a sentence: capital first, full stop last. A path such as `machines.vmc.axis` keeps its spelling. */
export function sentence(text: string): string {
  const trimmed = text.trim();
  if (trimmed === "") return "";
  const first = /^\w+[.[]\w/.test(trimmed) ? trimmed : trimmed.charAt(0).toUpperCase() + trimmed.slice(1);
  return /[.!?]$/.test(first) ? first : `${first}.`;
}

/** The text as a sentence, with the way out behind it where it does not tell one itself. */
export function withWayOut(text: string, out: string): string {
  return /way out|with G80 first/i.test(text) ? sentence(text) : `${sentence(text)} Way out: ${out}.`;
}
