/** What the run met that a check must word. One cause is kept a few times with its places, then only counted. */
import type { Span } from "../text/place.ts";
import { NO_CALLS } from "./frames.ts";
import type { ProgramEvent, ProgramEventKind } from "./types.ts";

export type EventData = Readonly<Record<string, number | string | null>>;
export type Level = "error" | "warning" | "info";

const KEPT_PER_CAUSE = 20;

interface Cause {
  readonly most: number;
  kept: number;
  more: number;
  last: number;
}

export interface EventMark {
  readonly told: number;
}

export class EventList {
  #events: ProgramEvent[] = [];
  #causes = new Map<string, Cause>();
  /** All that was told, in order: the cause, and the number of the event that was kept of it, −1 only counted. */
  /** Calling blocks of what is told now. */
  calls: readonly number[] = NO_CALLS;
  #log: { readonly cause: string; readonly kept: number }[] = [];

  /**
   * @param cause events with the same cause are one finding's worth
   * @param most how many of a cause are kept with their own place
   */
  add(
    kind: ProgramEventKind,
    cause: string,
    span: Span,
    operation: number,
    data: EventData,
    most = KEPT_PER_CAUSE,
  ): void {
    this.#take(`${kind}|${cause}`, most, { kind, span, operation, data, calls: this.calls });
  }

  #take(key: string, most: number, event: ProgramEvent | null): void {
    let entry = this.#causes.get(key);
    if (entry === undefined) {
      entry = { most, kept: 0, more: 0, last: -1 };
      this.#causes.set(key, entry);
    }
    if (entry.kept >= most || event === null) {
      entry.more++;
      this.#log.push({ cause: key, kept: -1 });
      return;
    }
    entry.kept++;
    entry.last = this.#events.length;
    this.#log.push({ cause: key, kept: this.#events.length });
    this.#events.push(event);
  }

  /** Whether anything of a kind was told. */
  told(kind: ProgramEventKind): boolean {
    return this.#events.some((event) => event.kind === kind);
  }

  get length(): number {
    return this.#events.length;
  }

  mark(): EventMark {
    return { told: this.#log.length };
  }

  /** Whether what another list was told between two marks can be told here: an event it only counted may be wanted here. */
  canAppend(other: EventList, from: EventMark, to: EventMark): boolean {
    const kept = new Map<string, number>();
    for (let i = from.told; i < to.told; i++) {
      const entry = other.#log[i];
      if (entry === undefined) return false;
      const most = other.#causes.get(entry.cause)?.most ?? 0;
      const now = kept.get(entry.cause) ?? this.#causes.get(entry.cause)?.kept ?? 0;
      if (now < most && entry.kept < 0) return false;
      if (now < most) kept.set(entry.cause, now + 1);
    }
    return true;
  }

  append(other: EventList, from: EventMark, to: EventMark): void {
    for (let i = from.told; i < to.told; i++) {
      const entry = other.#log[i];
      if (entry === undefined) continue;
      this.#take(entry.cause, other.#causes.get(entry.cause)?.most ?? 0, other.#events[entry.kept] ?? null);
    }
  }

  /** The events, each with `count`: how often its cause was met from there on. A condition counts once, however often it runs. */
  list(): readonly ProgramEvent[] {
    const more = new Map<number, number>();
    for (const cause of this.#causes.values()) if (cause.more > 0) more.set(cause.last, cause.more);
    return this.#events.map((event, i) => ({
      ...event,
      data: { ...event.data, count: event.kind === "branch" ? 1 : 1 + (more.get(i) ?? 0) },
    }));
  }
}
