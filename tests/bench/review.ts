import { readBlocks } from "../../grammar/read.ts";
import { review } from "../../server/review/review.ts";
import type { Review } from "../../server/review/types.ts";
import { LineStore } from "../../server/text/lines.ts";
import { makeMixedProgram } from "./mixed.ts";
import { SETUP } from "./setup.ts";
import { heldBytes, median, type Row } from "./table.ts";

function whole(text: string): Review {
  const lines = LineStore.from(text);
  return review({
    program: "file:///bench/mixed.nc",
    lines,
    blocks: readBlocks(lines),
    sources: new Map([["file:///bench/swarfline.yaml", SETUP]]),
    setupFile: "file:///bench/swarfline.yaml",
  });
}

/** Text to findings in one process, warm, and what a review holds. */
export function benchReview(sizes: readonly number[]): Row[] {
  const rows: Row[] = [];
  for (const size of sizes) {
    const text = makeMixedProgram(size);
    const times: number[] = [];
    for (let i = 0; i < 7; i++) {
      const start = performance.now();
      whole(text);
      times.push(performance.now() - start);
    }
    // The text is the editor's own; measured apart and left out.
    const held = LineStore.from(text);
    const before = heldBytes();
    const kept = whole(text);
    const perBlock = (heldBytes() - before - textBytes(held)) / size;
    const ms = median(times.slice(2));
    rows.push({
      what: "whole review, warm",
      size: `${size}`,
      now: `${ms.toFixed(1)} ms`,
      goal: "",
      beside: `${kept.execution.holeCount} holes, ${kept.findings.length} findings`,
      ok: true,
    });
    rows.push({
      what: "held per block after collection, less the text",
      size: `${size}`,
      now: `${perBlock.toFixed(0)} B`,
      goal: "300 B",
      beside: `first (cold) review ${times[0]?.toFixed(0)} ms`,
      ok: perBlock <= 300 || size < 10_000,
    });
  }
  return rows;
}

/** What a second line store of the same text holds: the lines are slices, the string itself is shared. */
function textBytes(store: LineStore): number {
  const text = store.text();
  const before = heldBytes();
  const copy = LineStore.from(text);
  const bytes = heldBytes() - before;
  return copy.count > 0 ? bytes : 0;
}
