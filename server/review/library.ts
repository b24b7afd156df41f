/** Called programs that stand in files of their own: found among the sources, or named as missing. */
import { readBlocks } from "../../grammar/read.ts";
import type { LibraryFile } from "../program/library.ts";
import { findSource, subprogramFiles } from "../setup/paths.ts";
import type { ResolvedSetup, Sources } from "../setup/types.ts";
import { LineStore } from "../text/lines.ts";

/** More files than a program calls; a lock against calls that lead on and on. */
const MOST_FILES = 100;

/** Read files by their text, so that an unchanged one keeps its blocks from review to review. */
const kept = new Map<string, { readonly text: string; readonly blocks: LibraryFile["blocks"] }>();
const MOST_KEPT = 200;

export interface Fetched {
  readonly files: readonly LibraryFile[];
  readonly missing: readonly string[];
}

/** The files for programs that were called and not found in the text. */
export function libraryFor(
  wanted: readonly number[],
  setup: ResolvedSetup,
  sources: Sources,
  have: readonly LibraryFile[],
): Fetched {
  const files: LibraryFile[] = [...have];
  const missing: string[] = [];
  const patterns = setup.subprograms ?? [];
  if (setup.file === null || patterns.length === 0) return { files, missing };
  for (const number of wanted) {
    if (files.length >= MOST_FILES || files.some((file) => file.number === number)) continue;
    const candidates = subprogramFiles(setup.file, patterns, number);
    const found = candidates.map((uri) => findSource(sources, uri)).find((source) => source !== null);
    if (found == null) {
      missing.push(...candidates.filter((uri) => !missing.includes(uri)));
      continue;
    }
    files.push({ number, file: found.uri, blocks: blocksOf(found.uri, found.text) });
  }
  return { files, missing };
}

function blocksOf(uri: string, text: string): LibraryFile["blocks"] {
  const known = kept.get(uri);
  if (known?.text === text) return known.blocks;
  const blocks = readBlocks(LineStore.from(text));
  kept.delete(uri);
  kept.set(uri, { text, blocks });
  const oldest = kept.keys().next().value;
  if (kept.size > MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  return blocks;
}
