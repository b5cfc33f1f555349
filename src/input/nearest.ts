/** The known word a mistyped one most likely means. */

/**
 * The candidate with the least edit distance, or null when none is near enough to be worth suggesting
 * (more than a third of the longer word would have to change).
 */
export function nearestWord(word: string, candidates: readonly string[]): string | null {
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const longest = Math.max(word.length, candidate.length);
    if (Math.abs(word.length - candidate.length) > longest / 3) continue;
    const distance = editDistance(word.toLowerCase(), candidate);
    if (distance < least && distance <= Math.max(1, longest / 3)) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** Levenshtein distance (1966): insertions, deletions and replacements that turn one word into the other. */
export function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replace = (previous[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(replace, (previous[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1));
    }
    previous = row;
  }
  return previous[b.length] ?? 0;
}
