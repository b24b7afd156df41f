/** The full programs of this folder, read and reviewed as their shop reviews them. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { readBlocks } from "../../grammar/read.ts";
import { review } from "../../server/review/review.ts";
import { decode } from "../../server/text/decode.ts";
import { LineStore } from "../../server/text/lines.ts";

export const folder = import.meta.dirname;
export const names: readonly string[] = readdirSync(folder).filter((name) => name.endsWith(".nc"));

const SETUP = join(folder, "swarfline.yaml");
const CALLED = join(folder, "called", "O8001.nc");

export const read = (path: string): string => decode(readFileSync(path)).text;
export const textOf = (name: string): string => read(join(folder, name));
const sources = new Map([SETUP, CALLED].map((path) => [path, read(path)]));

/** A shop that declares nothing: tools are those of the comments. */
const withoutSetup = (name: string): boolean => name.startsWith("shop-");

/** @param text the file's own, or another that is reviewed in its place */
export function reviewed(name: string, text = textOf(name)) {
  const program = join(folder, name);
  const lines = LineStore.from(text);
  const blocks = readBlocks(lines);
  const beside = withoutSetup(name) ? { sources: new Map(), setupFile: null } : { sources, setupFile: SETUP };
  return { lines, blocks, made: review({ program, lines, blocks, ...beside }) };
}
