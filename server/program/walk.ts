/** From block to block: the next line, or where a jump, a call or a return leads. Always ends. */
import { endsHere, settle } from "./branches.ts";
import { fallOut, leave } from "./calls.ts";
import type { Run } from "./run.ts";
import { itemsSpan } from "./spans.ts";

/** ms; looked at now and then. Results do not depend on it unless a machine is far too slow. */
const MOST_TIME = 20_000;
const LOOK_EVERY = 8192;

/** Strokes of the tool, pecks among them: so many, and so many for each block of the text. */
const MOST_STROKES = 2_000_000;
const STROKES_PER_BLOCK = 100;

/** @param most blocks and holes that loops, jumps, calls and repeats may make beyond once through the text */
export function begin(run: Run, most = run.dialect.maxLoopSteps): void {
  run.most = run.blocks.count + most;
  run.mostStrokes = MOST_STROKES + STROKES_PER_BLOCK * run.blocks.count;
  run.started = Date.now();
  run.look = LOOK_EVERY;
}

/** The block to run next; −1 when the run is over. */
export function nextBlock(run: Run): number {
  const { blocks } = run;
  for (;;) {
    if (run.ended) {
      if (!another(run)) return -1;
      continue;
    }
    if (run.waiting.size > 0) settle(run);
    if (run.next < run.textEnd) break;
    if (run.frame !== null) {
      fallOut(run);
      continue;
    }
    if (!another(run)) return -1;
  }
  run.ticks++;
  if (run.ticks > run.most)
    return stop(
      run,
      `more than ${run.most} blocks and repeated holes were run: a loop, call or repeat count seems to have no end`,
    );
  if (run.strokes > run.mostStrokes)
    return stop(run, `more than ${run.mostStrokes} strokes were made: a repeat count or Q seems to be wrong`);
  if (run.ticks >= run.look) {
    if (Date.now() - run.started > MOST_TIME) return stop(run, `the run took more than ${MOST_TIME / 1000} s`);
    run.look = run.ticks + LOOK_EVERY;
  }
  return blocks.blockAt(run.next);
}

/** The program ends on this way: whether another one goes on. */
function another(run: Run): boolean {
  const how = endsHere(run, false);
  if (how === "leaves") leave(run);
  return how !== "over";
}

function stop(run: Run, why: string): number {
  run.waiting.clear();
  run.cut = true;
  run.ended = true;
  run.sawEnd = true;
  const { blocks, record } = run;
  const block = run.jumped < 0 ? run.words.block : run.jumped;
  record?.events.add("run-limit", "blocks", itemsSpan(blocks, block), record.operations.current, {
    text: `${why}. What comes after is not checked. Way out: a counter that ends the loop, or the program in parts`,
  });
  return -1;
}

/** The lines that were run, as [first, end) pairs: a loop's lines once, not once per turn. */
export class Visits {
  #pairs: number[] = [];
  #first = -1;
  #end = -1;

  at(line: number): void {
    if (line === this.#end) {
      this.#end++;
      return;
    }
    this.#close();
    this.#first = line;
    this.#end = line + 1;
  }

  #close(): void {
    const pairs = this.#pairs;
    if (this.#first < 0) return;
    for (let i = Math.max(0, pairs.length - 32); i < pairs.length; i += 2)
      if ((pairs[i] ?? 0) <= this.#first && (pairs[i + 1] ?? 0) >= this.#end) return;
    pairs.push(this.#first, this.#end);
  }

  /** Those since the last take. */
  take(): number[] {
    this.#close();
    const pairs = this.#pairs;
    this.#pairs = [];
    this.#first = -1;
    this.#end = -1;
    return pairs;
  }
}
