interface Findable {
  readonly label: string;
  readonly alsoCalled?: readonly string[] | undefined;
  readonly ask?: string | undefined;
  readonly summary?: string | undefined;
}

/**
 * Entries in which every word of `query` occurs (in label, other words, question or summary), best first:
 * a label that begins with the query, then words in the label, then in the other words, then anywhere.
 * Entries of equal rank keep their order. An empty query finds nothing.
 */
export function findInGuide<T extends Findable>(entries: readonly T[], query: string): T[] {
  const words = plain(query).split(' ').filter(Boolean);
  if (words.length === 0) return [];
  return entries
    .map((entry) => ({ entry, rank: rankOf(entry, words) }))
    .filter(({ rank }) => rank > 0)
    .sort((a, b) => b.rank - a.rank)
    .map(({ entry }) => entry);
}

function rankOf(entry: Findable, words: readonly string[]): number {
  const label = plain(entry.label);
  const also = plain((entry.alsoCalled ?? []).join(' '));
  const rest = plain(`${entry.ask ?? ''} ${entry.summary ?? ''}`);
  const whole = words.join(' ');
  const hasAll = (text: string) => words.every((word) => occursIn(text, word));
  if (label.startsWith(whole)) return 5;
  if (hasAll(label)) return 4;
  if (hasAll(also)) return 3;
  if (hasAll(`${label} ${also}`)) return 2;
  return hasAll(`${label} ${also} ${rest}`) ? 1 : 0;
}

/** A word counts where a word of the text begins with it ("pop" finds "popping", not "stop"). */
function occursIn(text: string, word: string): boolean {
  return ` ${text}`.includes(` ${word}`);
}

/** Lower case, accents off, marks as spaces. */
function plain(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}
