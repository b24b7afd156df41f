/**
 * How fast a program is read and what it holds. Run it on its own:
 * `node --expose-gc --experimental-strip-types tests/bench/parse.ts` (a recent Node strips types without the flag).
 */
import { pathToFileURL } from "node:url";
import { readBlocks } from "../../grammar/read.ts";
import { LineStore } from "../../server/text/lines.ts";
import { makeMixedProgram } from "./mixed.ts";
import { heldBytes, median, printTable, type Row } from "./table.ts";

const RUNS = 9;
const WARM_UP = 3;

export function benchParse(sizes: readonly number[]): Row[] {
  return sizes.flatMap(measure);
}

function measure(size: number): Row[] {
  const text = makeMixedProgram(size);
  const lines = LineStore.from(text);
  const first = timed(() => readBlocks(lines));
  for (let i = 0; i < WARM_UP; i++) readBlocks(lines);
  const ms = median(Array.from({ length: RUNS }, () => timed(() => readBlocks(lines))));
  const scan = median(Array.from({ length: RUNS }, () => timed(() => bareScan(text))));
  const perSecond = lines.count / ms;
  const before = heldBytes();
  const kept = readBlocks(lines);
  const perBlock = (heldBytes() - before) / kept.count;
  // A thousand blocks are read before the engine has compiled anything: no goal there.
  const judged = size >= 10_000;
  return [
    {
      what: "read blocks, warm",
      size: `${size}`,
      now: `${perSecond.toFixed(0)} k blocks/s (${ms.toFixed(1)} ms)`,
      goal: judged ? "250 k blocks/s" : "",
      beside: `bare look at every character ${scan.toFixed(2)} ms; first read ${first.toFixed(0)} ms`,
      ok: !judged || perSecond >= 250,
    },
    {
      what: "held by the blocks alone",
      size: `${size}`,
      now: `${perBlock.toFixed(0)} B per block`,
      goal: judged ? "110 B" : "",
      beside: `${(text.length / lines.count).toFixed(0)} B of text per block`,
      ok: !judged || perBlock <= 110,
    },
  ];
}

function bareScan(text: string): number {
  let words = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c >= 65 && c <= 90) words++;
  }
  return words;
}

function timed(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  console.log(printTable(benchParse([1000, 10_000, 100_000])));
}
