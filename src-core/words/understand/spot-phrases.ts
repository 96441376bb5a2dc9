import type { Word, WordBook } from '../word-book.ts';
import type { Place } from './chips.ts';

interface Spotted<T> extends Place {
  readonly means: readonly T[];
}

/** Finds known phrases in words, longest first, small words between them or not. */
export type PhraseSpotter<T> = (words: readonly Word[]) => Spotted<T>[];

const LONGEST = 6;

/** Makes a spotter of phrases; several meanings of one phrase all come. */
export function createPhraseSpotter<T>(
  phrases: readonly { readonly phrase: string; readonly means: T }[],
  book: WordBook,
  isSame: (a: T, b: T) => boolean = Object.is,
): PhraseSpotter<T> {
  // By meaning where the trade has a row for it: "new reel" is found by "new spool".
  const keyOf = (words: readonly Word[]) =>
    book
      .unitsOfWords(words)
      .map(({ token }) => token)
      .join(' ');
  const meanings = new Map<string, T[]>();
  for (const { phrase, means } of phrases) {
    const key = keyOf(book.wordsOf(phrase));
    const known = meanings.get(key) ?? [];
    if (!known.some((one) => isSame(one, means))) meanings.set(key, [...known, means]);
  }
  return (all) => {
    const words = all.filter((word) => !book.isSmall(word));
    const spotted: Spotted<T>[] = [];
    for (let at = 0; at < words.length; at++) {
      for (let length = Math.min(LONGEST, words.length - at); length > 0; length--) {
        const some = words.slice(at, at + length);
        const means = meanings.get(keyOf(some));
        if (!means) continue;
        spotted.push({ means, from: some[0]?.from ?? 0, to: some.at(-1)?.to ?? 0 });
        at += length - 1;
        break;
      }
    }
    return spotted;
  };
}
