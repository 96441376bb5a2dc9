/**
 * The id of `known` that is closest to `wanted` by edit distance (Levenshtein 1966), or undefined when
 * nothing is closer than half the length of `wanted`.
 */
export function nearestId(wanted: string, known: Iterable<string>): string | undefined {
  let best: string | undefined;
  let bestDistance = Math.max(3, Math.ceil(wanted.length / 2)) + 1;
  for (const id of known) {
    const distance = editDistance(wanted, id);
    if (distance < bestDistance) {
      best = id;
      bestDistance = distance;
    }
  }
  return best;
}

function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const substitution = (previous[column - 1] ?? 0) + (a[row - 1] === b[column - 1] ? 0 : 1);
      current.push(Math.min(substitution, (previous[column] ?? 0) + 1, (current[column - 1] ?? 0) + 1));
    }
    previous = current;
  }
  return previous[b.length] ?? 0;
}
