/**
 * Ways of the program that wait for the run to come to their line, one for each line of a call: ways that wait for the
 * same line are joined as they come, so there are never more of them than lines.
 */
import type { Frame } from "./frames.ts";
import type { State } from "./state.ts";

/** `line` is infinite for a way that leaves the call. */
export interface Waiting {
  readonly line: number;
  readonly frame: Frame | null;
  readonly state: State;
  readonly why: string;
}

export class Ways {
  readonly #byFrame = new Map<Frame | null, FrameWays>();
  size = 0;

  at(frame: Frame | null, line: number): Waiting | undefined {
    return this.#byFrame.get(frame)?.byLine.get(line);
  }

  add(way: Waiting): void {
    let ways = this.#byFrame.get(way.frame);
    if (ways === undefined) {
      ways = { byLine: new Map(), heap: [] };
      this.#byFrame.set(way.frame, ways);
    }
    ways.byLine.set(way.line, way);
    push(ways.heap, way.line);
    this.size++;
  }

  /** The way of a call that waits at the lowest line. */
  first(frame: Frame | null): Waiting | undefined {
    const ways = this.#byFrame.get(frame);
    return ways?.byLine.get(ways.heap[0] ?? -1);
  }

  takeFirst(frame: Frame | null): Waiting | undefined {
    const ways = this.#byFrame.get(frame);
    const line = ways?.heap[0];
    if (ways === undefined || line === undefined) return undefined;
    pop(ways.heap);
    const way = ways.byLine.get(line);
    ways.byLine.delete(line);
    if (ways.heap.length === 0) this.#byFrame.delete(frame);
    this.size--;
    return way;
  }

  clear(): void {
    this.#byFrame.clear();
    this.size = 0;
  }
}

interface FrameWays {
  readonly byLine: Map<number, Waiting>;
  /** Their lines, lowest on top. */
  readonly heap: number[];
}

function push(heap: number[], line: number): void {
  let at = heap.length;
  heap.push(line);
  while (at > 0) {
    const above = (at - 1) >> 1;
    const other = heap[above] ?? 0;
    if (other <= line) break;
    heap[at] = other;
    at = above;
  }
  heap[at] = line;
}

function pop(heap: number[]): void {
  const line = heap.pop();
  if (line === undefined || heap.length === 0) return;
  let at = 0;
  for (;;) {
    let below = 2 * at + 1;
    if (below >= heap.length) break;
    if ((heap[below + 1] ?? Number.POSITIVE_INFINITY) < (heap[below] ?? 0)) below++;
    const other = heap[below] ?? 0;
    if (other >= line) break;
    heap[at] = other;
    at = below;
  }
  heap[at] = line;
}
