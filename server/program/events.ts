/** What the run met that a check must word. One cause is kept a few times with its places, then only counted. */
import type { Span } from "../text/place.ts";
import type { ProgramEvent, ProgramEventKind } from "./types.ts";

export type EventData = Readonly<Record<string, number | string | null>>;
export type Level = "error" | "warning" | "info";

const KEPT_PER_CAUSE = 20;

interface Cause {
  kept: number;
  more: number;
  last: number;
}

export class EventList {
  #events: ProgramEvent[] = [];
  #causes = new Map<string, Cause>();

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
    const key = `${kind}|${cause}`;
    let entry = this.#causes.get(key);
    if (entry === undefined) {
      entry = { kept: 0, more: 0, last: -1 };
      this.#causes.set(key, entry);
    }
    if (entry.kept >= most) {
      entry.more++;
      return;
    }
    entry.kept++;
    entry.last = this.#events.length;
    this.#events.push({ kind, span, operation, data });
  }

  get length(): number {
    return this.#events.length;
  }

  /** The events, each with `count`: how often its cause was met from there on. */
  list(): readonly ProgramEvent[] {
    const more = new Map<number, number>();
    for (const cause of this.#causes.values()) if (cause.more > 0) more.set(cause.last, cause.more);
    return this.#events.map((event, i) => ({ ...event, data: { ...event.data, count: 1 + (more.get(i) ?? 0) } }));
  }

  copy(): EventList {
    const other = new EventList();
    other.#events = [...this.#events];
    for (const [key, cause] of this.#causes) other.#causes.set(key, { ...cause });
    return other;
  }
}
