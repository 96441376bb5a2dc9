import { distance as editDistance } from 'fastest-levenshtein';

/**
 * The id of `known` that is closest to `wanted` by edit distance (Levenshtein 1966), or undefined when
 * nothing is within half the length of `wanted`, or within 3 edits of a short one.
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
