/** A longer name is not looked up: it was pasted rather than mistyped, and the comparing takes its square in steps. */
const LONGEST = 24;

/**
 * The known name that `name` was most likely meant to be, or null where none is close: at most one slip (a letter
 * wrong, missing, added, or two swapped) for every three letters, capitals aside. The first of equally close names wins.
 */
export function nearestName(name: string, known: Iterable<string>): string | null {
  if (name.length > LONGEST) return null;
  const given = name.toLowerCase();
  let nearest: string | null = null;
  let least = Math.max(1, Math.floor(name.length / 3)) + 1;
  for (const candidate of known) {
    if (Math.abs(candidate.length - name.length) >= least) continue;
    const slips = slipsBetween(given, candidate.toLowerCase());
    // R1 is no slip for R9: where a single letter is shared, or none, the names are merely both short.
    const isAlike = slips === 0 || slips < Math.max(given.length, candidate.length) - 1;
    if (isAlike && slips < least) {
      nearest = candidate;
      least = slips;
    }
  }
  return nearest;
}

/** Optimal string alignment distance: rows of the usual table, the last two kept for swaps. */
function slipsBetween(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let slips = Math.min(at(last, j) + 1, at(row, j - 1) + 1, at(last, j - 1) + (same ? 0 : 1));
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (isSwap) slips = Math.min(slips, at(beforeLast, j - 2) + 1);
      row.push(slips);
    }
    beforeLast = last;
    last = row;
  }
  return at(last, b.length);
}

function at(row: readonly number[], index: number): number {
  return row[index] as number;
}
