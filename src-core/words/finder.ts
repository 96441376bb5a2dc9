import {
  createTextIndex,
  metShare,
  type Asked,
  type Findable,
  type IndexedText,
  type TextIndex,
} from './text-index.ts';
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

/** How near a text of an entry stands to it: as what the words say together ... */
const NEARNESS = { label: 1, alsoCalled: 0.8, ask: 0.5, summary: 0.3 } as const;
/** ... and as a place where single words of it stand. */
const WORD_NEARNESS = { label: 1, alsoCalled: 1, ask: 0.5, summary: 0.3 } as const;
/** A text is nearer the more of it was said: people type much that an entry does not say, seldom half of what it says. */
const TEXT_SHARE_POWER = 0.7;
/** Longer texts that were met are nearer than single words, but not by as much as they are longer. */
const TOLD_POWER = 0.25;
/** What a word that goes with everything counts of another, in the share of a text. */
const LIGHT_UNIT = 0.25;
/** What a second text of the entry that says it too counts of the best. */
const SECOND_TEXT = 0.4;
/** What all words count, wherever they stand in the entry's texts: the more of what was asked, the more each. */
const ALL_WORDS = 0.15;
const ALL_WORDS_POWER = 1.5;
/** Of two that fit alike, what can be complained of comes first: who types a word or two looks for that. Shared by the words asked. */
const COMPLAINT = 0.6;
/** Of many words, what is this much less near than the nearest is left out: it shares one beside the point. Of one word, nothing is. */
const LEAST_OF_NEAREST = 0.3;

/**
 * Makes a search over `entries`: words in any order, unfinished, mistyped, in other words of the trade. Words may be missing
 * from an entry; the fewer, the higher it stands. What shares a word beside the point only is left out. An empty query finds nothing. The index is built at the first query.
 */
export function createFinder<T extends Findable & { readonly complaint?: boolean }>(
  entries: readonly T[],
  book: WordBook,
): Finder<T> {
  let index: TextIndex | undefined;
  return (query) => {
    if (query.trim() === '') return [];
    index ??= createTextIndex(entries, book);
    const asked = index.read(query, true);
    const ofComplaint = 1 + COMPLAINT / asked.length;
    const hits = [...sumsByEntry(index, asked)]
      .flatMap(([at, { score, found }]) => {
        const entry = entries[at];
        return entry ? [{ entry, score: entry.complaint ? score * ofComplaint : score, found, at }] : [];
      })
      .sort((a, b) => b.score - a.score || a.at - b.at);
    const least = (hits[0]?.score ?? 0) * LEAST_OF_NEAREST * (1 - 1 / asked.length);
    return hits
      .filter(({ score }) => score >= least)
      .map(({ entry, score, found }) => ({ entry, score, found }));
  };
}

interface Sum {
  readonly score: number;
  readonly found: number;
}

/** What was met of one text. */
interface Met {
  /** Weight of the words of the query that it holds. */
  told: number;
  readonly tokens: Map<string, number>;
}

/**
 * Score and share found by the entry's place. People say two things in one breath, so the words that a text lacks do not tell
 * against it; those that were not said of it do.
 */
function sumsByEntry(index: TextIndex, asked: readonly Asked[]): Map<number, Sum> {
  const whole = asked.reduce((sum, one) => sum + one.weight, 0);
  const metOf = new Map<IndexedText, Met>();
  const wordsOf = new Map<number, { near: number; found: number }>();
  for (const one of asked) {
    const bestOf = new Map<number, { near: number; alike: number }>();
    for (const [text, { alike, token }] of index.meetings(one)) {
      const met = metOf.get(text) ?? { told: 0, tokens: new Map<string, number>() };
      met.told += one.weight * alike;
      met.tokens.set(token, Math.max(met.tokens.get(token) ?? 0, alike));
      metOf.set(text, met);
      const best = bestOf.get(text.entry) ?? { near: 0, alike: 0 };
      best.near = Math.max(best.near, alike * WORD_NEARNESS[text.kind]);
      best.alike = Math.max(best.alike, alike);
      bestOf.set(text.entry, best);
    }
    for (const [entry, { near, alike }] of bestOf) {
      const words = wordsOf.get(entry) ?? { near: 0, found: 0 };
      words.near += one.weight * near;
      words.found += (one.weight * alike) / whole;
      wordsOf.set(entry, words);
    }
  }
  const bestTexts = new Map<number, { first: number; second: number }>();
  for (const [text, { told, tokens }] of metOf) {
    const value = NEARNESS[text.kind] * told ** TOLD_POWER * shareOfText(text, tokens) ** TEXT_SHARE_POWER;
    const best = bestTexts.get(text.entry) ?? { first: 0, second: 0 };
    if (value > best.first) bestTexts.set(text.entry, { first: value, second: best.first });
    else bestTexts.set(text.entry, { ...best, second: Math.max(best.second, value) });
  }
  return new Map(
    [...wordsOf].map(([entry, { near, found }]) => {
      const { first, second } = bestTexts.get(entry) ?? { first: 0, second: 0 };
      const all = near ** ALL_WORDS_POWER / whole ** (ALL_WORDS_POWER / 2);
      return [entry, { score: first + SECOND_TEXT * second + ALL_WORDS * all, found }];
    }),
  );
}

/** Share of the text's words that were said, 0 to 1. */
function shareOfText({ units, light }: IndexedText, tokens: ReadonlyMap<string, number>): number {
  let said = 0;
  let all = 0;
  units.forEach((unit, at) => {
    const count = light[at] ? LIGHT_UNIT : 1;
    said += count * metShare(unit, tokens);
    all += count;
  });
  return said / all;
}
