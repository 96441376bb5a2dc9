import {
  createTextIndex,
  LIGHT,
  type Asked,
  type Findable,
  type IndexedText,
  type TextIndex,
} from './text-index.ts';
import { clausesOf } from './understand/clauses.ts';
import type { WordBook } from './word-book.ts';

/** One entry that was found. */
export interface Hit<T> {
  readonly entry: T;
  /** Higher is nearer; comparable within one answer only. */
  readonly score: number;
  /** Share of what was asked for that was found, 0 to 1, weighted by how much each word tells. */
  readonly found: number;
}

export type Finder<T> = (query: string) => Hit<T>[];

/** How near a text of an entry stands to it. */
const NEARNESS = { label: 1, alsoCalled: 0.95, ask: 0.55, summary: 0.35 } as const;
/** How much it counts that the words stand together in one text of the entry, not spread over several. */
const ONE_TEXT = 0.75;
/** What fits one statement of several counts of what fits all. */
const ONE_CLAUSE = 0.8;
/** A text that says little besides is nearer: the share of it that was asked for counts by this power. */
const TEXT_SHARE_POWER = 0.5;
/** Of two that fit alike, what can be complained of comes first: that is what people search for. */
const COMPLAINT = 1.4;

/**
 * Makes a search over `entries`: words in any order, unfinished, mistyped, in other words of the trade. Words may be missing
 * from an entry; the fewer, the higher it stands. An empty query finds nothing. The index is built at the first query.
 */
export function createFinder<T extends Findable & { readonly complaint?: boolean }>(
  entries: readonly T[],
  book: WordBook,
): Finder<T> {
  let index: TextIndex | undefined;
  return (query) => {
    if (query.trim() === '') return [];
    index ??= createTextIndex(entries, book);
    return [...bestSums(index, query, book)]
      .flatMap(([at, { score, found }]) => {
        const entry = entries[at];
        return entry ? [{ entry, score: entry.complaint ? score * COMPLAINT : score, found, at }] : [];
      })
      .sort((a, b) => b.score - a.score || a.at - b.at)
      .map(({ entry, score, found }) => ({ entry, score, found }));
  };
}

interface Sum {
  readonly score: number;
  readonly found: number;
}

/** The query as a whole, or one statement of it: people say two things in one breath. */
function bestSums(index: TextIndex, query: string, book: WordBook): Map<number, Sum> {
  const sums = sumsByEntry(index, index.read(query, true));
  const clauses = clausesOf(query, book);
  if (clauses.length < 2) return sums;
  for (const { words } of clauses) {
    const from = words[0]?.from ?? 0;
    const to = words.at(-1)?.to ?? 0;
    const asked = index.read(query.slice(from, to), to === query.trimEnd().length);
    for (const [entry, { score, found }] of sumsByEntry(index, asked)) {
      const known = sums.get(entry);
      if ((known?.score ?? 0) < score * ONE_CLAUSE) sums.set(entry, { score: score * ONE_CLAUSE, found });
    }
  }
  return sums;
}

/** Score and share found by the entry's place: mostly by its best text, the rest by all its texts together. */
function sumsByEntry(index: TextIndex, asked: readonly Asked[]): Map<number, Sum> {
  const whole = asked.reduce((sum, one) => sum + one.weight, 0);
  const byText = new Map<IndexedText, Sum>();
  const byEntry = new Map<number, Sum>();
  const meetings = new Map<IndexedText, number>();
  for (const one of asked) {
    const factor = one.isLight ? LIGHT : 1;
    const share = one.weight / whole;
    const bestOf = new Map<number, Sum>();
    for (const [text, { score, alike }] of index.meetings(one)) {
      meetings.set(text, (meetings.get(text) ?? 0) + alike);
      add(byText, text, { score: score * factor, found: share * alike });
      const near = score * factor * NEARNESS[text.kind];
      if ((bestOf.get(text.entry)?.score ?? 0) < near)
        bestOf.set(text.entry, { score: near, found: share * alike });
    }
    for (const [entry, sum] of bestOf) add(byEntry, entry, sum);
  }
  const bestText = new Map<number, number>();
  for (const [text, { score, found }] of byText) {
    const met = (meetings.get(text) ?? 0) / (text.units.length || 1);
    const value = score * NEARNESS[text.kind] * found * Math.min(1, met) ** TEXT_SHARE_POWER;
    if ((bestText.get(text.entry) ?? 0) < value) bestText.set(text.entry, value);
  }
  return new Map(
    [...byEntry].map(([entry, { score, found }]) => {
      const together = score * found;
      return [entry, { score: ONE_TEXT * (bestText.get(entry) ?? 0) + (1 - ONE_TEXT) * together, found }];
    }),
  );
}

function add<K>(sums: Map<K, Sum>, key: K, more: Sum): void {
  const known = sums.get(key);
  sums.set(key, { score: (known?.score ?? 0) + more.score, found: (known?.found ?? 0) + more.found });
}
