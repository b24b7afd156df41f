/** One measured figure, with the goal of this class of machine (two shared cores) where there is one. */
export interface Row {
  readonly what: string;
  readonly size: string;
  readonly now: string;
  readonly goal: string;
  /** Beside what it was measured in the same run. */
  readonly beside: string;
  /** false: the goal was missed. */
  readonly ok: boolean;
}

export function printTable(rows: readonly Row[]): string {
  const head: readonly string[] = ["", "figure", "size", "now", "goal", "beside"];
  const cells = [head, ...rows.map((r) => [r.ok ? "" : "!", r.what, r.size, r.now, r.goal, r.beside])];
  const widths = head.map((_, column) => Math.max(...cells.map((row) => (row[column] ?? "").length)));
  return cells
    .map((row) =>
      row
        .map((cell, i) => cell.padEnd(widths[i] ?? 0))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}

export function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

/** Heap and array buffers after collection, in bytes. Needs --expose-gc. */
export function heldBytes(): number {
  const gc = (globalThis as { gc?: () => void }).gc;
  if (gc === undefined) throw new Error("run with --expose-gc");
  for (let i = 0; i < 3; i++) gc();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}
