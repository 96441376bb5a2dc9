import { stemmer } from 'stemmer';
import type { Words } from '../knowledge/words-schema.ts';

/** One word of a text, with its place in it. */
export interface Word {
  /** Lower case, accents off. */
  readonly plain: string;
  /** Without endings: "clogging" and "clogs" are both "clog". */
  readonly root: string;
  readonly from: number;
  readonly to: number;
}

/** What one word or short phrase says: a row of the trade's words where it stands in one, otherwise its root. */
export interface Unit {
  /** `=row` or a root. */
  readonly token: string;
  /** Roots of its words. */
  readonly roots: readonly string[];
  /** Wide words that find it, as tokens. */
  readonly wider: readonly string[];
  readonly from: number;
  readonly to: number;
}

/** The words of the trade made ready for reading texts. Built once a guide. */
export interface WordBook {
  readonly words: Words;
  wordsOf(text: string): Word[];
  /** Words and phrases that say something, longest phrases first come; small words are left out unless there are no others. */
  unitsOf(text: string): Unit[];
  /** Units of words that were read before. */
  unitsOfWords(words: readonly Word[]): Unit[];
  isSmall(word: Word): boolean;
  /** Says little: a number, or a word that goes with everything. */
  isLight(unit: Unit): boolean;
  /** Every known word of the rows, with what it says: for prefixes and typing errors. */
  readonly rowWords: readonly { readonly plain: string; readonly unit: Unit }[];
}

const WORD = /\d+[.,]\d+|\d+(?![\p{L}\d])|[\p{L}\d]+(?:['’]\p{L}+)?/gu;
const LONGEST_PHRASE = 5;

export function createWordBook(words: Words): WordBook {
  const whole = new Set(words.whole.map(plain));
  const small = new Set(words.small.map(plain));
  const roots = new Map<string, string>();
  const rootOf = (word: string) => {
    const known = roots.get(word) ?? (whole.has(word) || /\d/.test(word) ? word : stemmer(word));
    roots.set(word, known);
    return known;
  };

  function wordsOf(text: string): Word[] {
    return [...text.matchAll(WORD)].map((match) => {
      const raw = plain(match[0].replace(/['’]s$/u, ''));
      // "doesn't" says no as "does not" does; other apostrophes only join.
      const word = /n['’]t$/u.test(raw) ? 'not' : raw.replace(/['’]/gu, '').replace(',', '.');
      return { plain: word, root: rootOf(word), from: match.index, to: match.index + match[0].length };
    });
  }
  const isSmall = (word: Word) => small.has(word.plain);
  const telling = (some: readonly Word[]) => {
    const kept = some.filter((word) => !isSmall(word));
    return kept.length > 0 ? kept : some;
  };
  const light = new Set(
    // How bad it is tells nothing about what it is.
    [...words.light, ...words.said.slight, ...words.said.heavy]
      .flatMap((phrase) => phrase.split(' '))
      .map((word) => rootOf(plain(word))),
  );
  const rootsOf = (phrase: string) => telling(wordsOf(phrase)).map((word) => word.root);

  const rowOf = new Map<string, string>();
  for (const row of words.same) {
    for (const phrase of row) rowOf.set(rootsOf(phrase).join(' '), `=${row[0] ?? ''}`);
  }
  const tokenOf = (roots: readonly string[]) => rowOf.get(roots.join(' ')) ?? roots.join(' ');
  const widerOf = new Map<string, string[]>();
  for (const { word, finds } of words.wider) {
    for (const one of finds) {
      const token = tokenOf(rootsOf(one));
      widerOf.set(token, [...(widerOf.get(token) ?? []), tokenOf(rootsOf(word))]);
    }
  }

  function unitsOfWords(some: readonly Word[]): Unit[] {
    const read = telling(some);
    const units: Unit[] = [];
    for (let at = 0; at < read.length;) {
      let length = Math.min(LONGEST_PHRASE, read.length - at);
      const rootsAt = () => read.slice(at, at + length).map((word) => word.root);
      while (length > 1 && !rowOf.has(rootsAt().join(' '))) length--;
      const roots = rootsAt();
      const token = tokenOf(roots);
      units.push({
        token,
        roots,
        wider: widerOf.get(token) ?? [],
        from: read[at]?.from ?? 0,
        to: read[at + length - 1]?.to ?? 0,
      });
      at += length;
    }
    return units;
  }
  const unitsOf = (text: string) => unitsOfWords(wordsOf(text));

  return {
    words,
    wordsOf,
    unitsOf,
    unitsOfWords,
    isSmall,
    isLight: ({ roots }) => roots.every((root) => light.has(root) || /^\d/.test(root)),
    rowWords: words.same.flat().flatMap((phrase) => {
      const [unit, ...more] = unitsOf(phrase);
      return unit && more.length === 0 && unit.roots.length === 1 ? [{ plain: plain(phrase), unit }] : [];
    }),
  };
}

/** Lower case, accents off. */
export function plain(text: string): string {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
}
