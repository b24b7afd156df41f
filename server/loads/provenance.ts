/** Says where a value comes from, as a person reads it. */
import { lineName } from "../program/library.ts";
import type { Execution, HoleShape, Span } from "../program/types.ts";
import type { ResolvedSetup, Tool } from "../setup/types.ts";

type Blocks = Execution["blocks"];
type WordRef = HoleShape["refs"]["z"];

export const COMMON_PRACTICE = "common practice";

const LETTER_N = 78;

/** `block N120` where the block has a sequence number, else `line 14`. */
export function blockName(blocks: Blocks, block: number): string {
  const first = blocks.firstItem(block);
  const count = blocks.itemCount(block);
  for (let item = first; item < first + count; item++) {
    if (blocks.kind(item) !== LETTER_N) continue;
    const written = blocks.textOf(block).slice(blocks.start(item), blocks.end(item)).replace(/\s+/g, "");
    if (written.length > 1) return `block ${written.toUpperCase()}`;
  }
  const line = blocks.lineOf(block);
  return line < 0 ? "a block that is gone" : lineName(blocks, block);
}

/** `S2352 in block N120`. */
export function wordSource(blocks: Blocks, ref: WordRef): string {
  if (ref === 0) return "the state before the first block";
  const span = blocks.spanOf(ref);
  if (span === null) return "a word that is gone";
  return `${spanText(blocks, span)} in ${blockName(blocks, span.block)}`;
}

function spanText(blocks: Blocks, span: Span): string {
  return blocks.textOf(span.block).slice(span.start, span.end).trim();
}

/** `comment in line 3` or `CUT note in block N40`. */
export function spanSource(blocks: Blocks, span: Span, what: string): string {
  return `${what} in ${blockName(blocks, span.block)}`;
}

/** Where a setup value stands: `swarfline.yaml line 12`; `otherwise` when the setup does not say. */
export function setupSource(setup: ResolvedSetup, path: string, otherwise: string): string {
  return setup.origins.get(path)?.text ?? otherwise;
}

/** Where a value of the tool comes from. `field` as in the tool's path: `DC`, `windows.0.f`. */
export function toolSource(execution: Execution, setup: ResolvedSetup, tool: Tool, field: string): string {
  const origin = nearestOrigin(setup, tool.path, field);
  if (origin !== null) return origin;
  if (tool.assumed) {
    const span = execution.toolComment(tool.T);
    return span === null ? "a comment (assumed)" : `${spanSource(execution.blocks, span, "comment")} (assumed)`;
  }
  return "tool table";
}

/** The origin of the value, else of what it stands in: a CSV row has one place for the whole tool. */
function nearestOrigin(setup: ResolvedSetup, path: string, field: string): string | null {
  const parts = field === "" ? [] : field.split(".");
  for (let n = parts.length; n >= 0; n--) {
    const origin = setup.origins.get([path, ...parts.slice(0, n)].join("."));
    if (origin !== undefined) return origin.text;
  }
  return null;
}
