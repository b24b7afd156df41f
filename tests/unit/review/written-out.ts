/** An edited program beside the one it came from: what the machine does, reckoned without the code that offers the edit. */
import { expect } from "vitest";
import type { Finding } from "../../../server/checks/types.ts";
import type { Motion } from "../../../server/program/types.ts";
import type { LineEdit } from "../../../server/review/fixes/types.ts";
import type { Review } from "../../../server/review/types.ts";

export const INTERRUPTED = ["interrupted-feed", "interrupted-exit"];
export const interrupted = ({ findings }: Review): Finding[] =>
  findings.filter(({ check }) => INTERRUPTED.includes(check));

/** The text with the lines of an edit in the place of the old ones. Line ends are those of the text, whatever they are. */
export function applied(text: string, edits: readonly LineEdit[]): string {
  const parts = text.split(/(\r\n|\n|\r)/);
  const eol = parts[1] ?? "\n";
  for (const { line, texts } of edits) parts[2 * line] = texts.join(eol);
  return parts.join("");
}

interface Way {
  /** Where each motion ends, feeds straight down as one. */
  readonly ends: string[];
  /** `x y z` of each tenth of a millimetre cut downward → feed. */
  readonly feeds: Map<string, number>;
}

/** Samples stand beside the heights at which programs change their feed. */
const OFF = 0.37;

const at = (...values: (number | null)[]): string => values.map((v) => (v === null ? "?" : v.toFixed(3))).join(" ");

function wayOf(motions: Iterable<Motion>): Way {
  const ends: string[] = [];
  const feeds = new Map<string, number>();
  let last: Motion | null = null;
  let falling = false;
  let cut = 0;
  for (const motion of motions) {
    const { x, y, z, state } = motion;
    const down = motion.kind === "feed" && last?.z != null && z !== null && z < last.z && last.x === x && last.y === y;
    const modes = [state.s, state.spindle, state.tool, state.wcs, state.units, state.feedMode, state.coolant.join("+")];
    const end = `${motion.kind} ${at(x, y, z)} ${modes.join(" ")} ${down ? "" : motion.kind === "feed" ? state.f : ""}`;
    if (down && falling) ends.pop();
    else if (down) cut++;
    ends.push(end);
    if (down && last?.z != null && z !== null) {
      for (let k = Math.ceil(z * 10 - OFF); k < last.z * 10 - OFF; k++) feeds.set(`${cut} ${k}`, state.f ?? Number.NaN);
    }
    falling = down;
    last = motion;
  }
  return { ends, feeds };
}

/** Same ways, same speeds, same holes; no feed higher, and one that is lower. */
export function expectSameHoles(before: Review, after: Review): void {
  const [old, now] = [wayOf(before.execution.motions()), wayOf(after.execution.motions())];
  expect(now.ends).toEqual(old.ends);
  expect([...now.feeds.keys()].sort()).toEqual([...old.feeds.keys()].sort());
  const changed = [...old.feeds].map(([place, feed]) => (now.feeds.get(place) ?? Number.NaN) - feed);
  expect(changed.filter((by) => !(by <= 0))).toEqual([]);
  expect(changed.some((by) => by < 0)).toBe(true);
  const holes = ({ execution }: Review) =>
    Array.from({ length: execution.holeCount }, (_, i) => {
      const { at: place, shape } = execution.hole(i);
      const n = shape.strokes.map((stroke) => stroke.n);
      return `${at(...place, shape.startZ, shape.endZ)} T${shape.tool} ${shape.kind} ${[...new Set(n)].join()}`;
    });
  expect(holes(after)).toEqual(holes(before));
  // One cause over many holes may have become many: holes are counted.
  const errors = ({ findings }: Review): number =>
    findings.filter(({ severity }) => severity === "error").reduce((sum, { count }) => sum + count, 0);
  expect(errors(after)).toBeLessThanOrEqual(errors(before));
  const slow = (of: Review): number => interrupted(of).reduce((sum, { count }) => sum + count, 0);
  expect(slow(after)).toBeLessThan(slow(before));
}
