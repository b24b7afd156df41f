/** The known name nearest to a mistyped one, or null when none is near enough to be meant. */
export function nearest(word: string, known: readonly string[]): string | null {
  const wanted = word.toLowerCase();
  if (wanted.length === 0 || wanted.length > 60) return null;
  let best: string | null = null;
  // A single letter is only meant by itself; six letters may differ in two places.
  let bestCost = wanted.length < 2 ? 1 : Math.max(1, Math.floor(wanted.length / 3)) + 1;
  for (const name of known) {
    const candidate = name.toLowerCase();
    if (Math.abs(candidate.length - wanted.length) >= bestCost) continue;
    const cost = distance(wanted, candidate, bestCost);
    if (cost < bestCost) {
      bestCost = cost;
      best = name;
    }
  }
  if (best !== null || wanted.length < 4) return best;
  // A part of a longer name is meant too: `carbid` of `solid-carbide`.
  for (const name of known) if (name.toLowerCase().includes(wanted)) return name;
  return null;
}

/** Edit distance with neighbours swapped counted as one; anything from `limit` on is as good as `limit`. */
function distance(a: string, b: string, limit: number): number {
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min((previous[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (previous[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
      row.push(cost);
      least = Math.min(least, cost);
    }
    if (least >= limit) return limit;
    before = previous;
    previous = row;
  }
  return previous[b.length] ?? limit;
}
