/** Numbers of new words: those of the program where it has them, else with a point, which every control reads alike. */
import type { WordRef } from "../../../grammar/blocks.ts";
import { feedNumber } from "../../checks/wording.ts";
import type { Execution, ModalState } from "../../program/types.ts";
import { cannot } from "./types.ts";

/** Value of a referenced word as it is written; null: no such word, or an expression. */
export function writtenValue({ blocks }: Execution, ref: WordRef): string | null {
  const span = ref === 0 ? null : blocks.spanOf(ref);
  if (span === null) return null;
  const text = blocks
    .textOf(span.block)
    .slice(span.start + 1, span.end)
    .trim();
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? text : null;
}

/** As above, for a word that must be written out again: what a variable holds cannot be told for good. */
export function mustBeWritten(execution: Execution, ref: WordRef, letter: string): string {
  return writtenValue(execution, ref) ?? cannot(`its ${letter} is no plain number of this program`);
}

const mmPerUnit = (state: ModalState): number => (state.units === "inch" ? 25.4 : 1);

/** A height in the program's unit, spelled as the word that gave it where that is the same number. */
export function height(value: number, execution: Execution, ref: WordRef, state: ModalState): string {
  const own = writtenValue(execution, ref);
  if (own !== null && Math.abs(Number(own) * mmPerUnit(state) - value) < 1e-6) return own;
  return decimal(value / mmPerUnit(state), 6, own);
}

/** Grid for the heights at which the feed changes, mm: a tenth of a millimetre, five thousandths of an inch. */
export const gridOf = (state: ModalState): number => (state.units === "inch" ? 0.005 * 25.4 : 0.1);

/** Number of the F word for a feed, rounded down. A whole number has a point where the program's own F has one. */
export function feed(f: number, n: number | null, execution: Execution, state: ModalState): string {
  // Under G93 a feed is no number to write: it hangs on the length of each move.
  const found = state.feedMode === 93 ? null : feedNumber(f, n, state, state.units ?? "mm");
  if (found === null) return cannot("the feed mode gives no F for a feed per turn");
  const own = writtenValue(execution, state.from.f) ?? "";
  const text = decimal(found.value, found.decimals, own);
  const bare = execution.setup.dialect.feedWithoutPoint === "plain" && !own.includes(".");
  return bare && text.endsWith(".") ? text.slice(0, -1) : text;
}

/** `-5.6`, `12.`, `0.`; `-.5` where the program's own number has no zero before its point. */
function decimal(value: number, decimals: number, own: string | null): string {
  const fixed = value.toFixed(decimals);
  const pointed = fixed.includes(".") ? fixed.replace(/0+$/, "") : `${fixed}.`;
  if (Number(pointed) === 0) return "0.";
  return own !== null && /^[+-]?\./.test(own) ? pointed.replace(/^(-?)0\./, "$1.") : pointed;
}
