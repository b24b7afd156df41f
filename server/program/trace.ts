/** The motions one by one, by running the program again: positions are not stored. */
import { runBlock } from "./block.ts";
import { startRun } from "./execute.ts";
import { NO_CALLS } from "./frames.ts";
import type { ResultParts } from "./result.ts";
import type { Motion } from "./types.ts";
import { begin, nextBlock } from "./walk.ts";
import { X } from "./words.ts";

export function* traceMotions(parts: ResultParts): Generator<Motion> {
  const { blocks, setup, options } = parts;
  if (parts.scan.tape !== null) return;
  const { store } = parts.run;
  const run = startRun(blocks, setup, options, store);
  const held: Motion[] = [];
  run.sink = {
    motion(kind, x, y, z, seconds) {
      held.push({
        kind,
        block: run.words.block,
        calls: run.frame?.calls ?? NO_CALLS,
        // As the program writes it: a diameter where X is one.
        x: known(x * run.spread(X)),
        y: known(y),
        z: known(z),
        state: store.state(run.currentRow(), run.step),
        seconds: Number.isFinite(seconds) ? seconds : null,
      });
    },
  };
  begin(run, options.mostBlocks);
  for (let block = nextBlock(run); block >= 0; block = nextBlock(run)) {
    run.next++;
    runBlock(run, block);
    if (held.length === 0) continue;
    yield* held;
    held.length = 0;
  }
}

function known(value: number): number | null {
  return Number.isFinite(value) ? Math.round(value * 1e9) / 1e9 + 0 : null;
}
