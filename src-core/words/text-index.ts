import MiniSearch from 'minisearch';
import type { Unit, WordBook } from './word-book.ts';

/** Anything that can be found by its words. */
export interface Findable {
  readonly label: string;
  readonly alsoCalled?: readonly string[] | undefined;
  readonly ask?: string | undefined;
  readonly summary?: string | undefined;
}

export const TEXT_KINDS = ['label', 'alsoCalled', 'ask', 'summary'] as const;
export type TextKind = (typeof TEXT_KINDS)[number];

/** One text of an entry: its label, one of its other words, its question or its summary. */
export interface IndexedText {
  /** Place of the entry in the list that was indexed. */
  readonly entry: number;
  readonly kind: TextKind;
  readonly units: readonly Unit[];
  /** Which of them say little. */
  readonly light: readonly boolean[];
  /** How many small words it has besides. */
  readonly smallWords: number;
}

/** A word or phrase of a query and what it may be meant as. */
export interface Asked {
  readonly unit: Unit;
  /** Token to how alike it is, 0 to 1. */
  readonly readings: ReadonlyMap<string, number>;
  /** How much it tells: little where many entries hold it, or none, or where the trade says it of everything. */
  readonly weight: number;
  readonly isLight: boolean;
}

/** How a text meets a word of the query. */
export interface Meeting {
  /** How alike the words are, 0 to 1. */
  readonly alike: number;
  /** The token of the text that was met. */
  readonly token: string;
}

export interface TextIndex {
  readonly texts: readonly IndexedText[];
  /** The words of a query. `isTyping`: its last word may be unfinished. */
  read(query: string, isTyping: boolean): Asked[];
  readUnits(units: readonly Unit[]): Asked[];
  /** Texts that hold a word of the query. */
  meetings(asked: Asked): Map<IndexedText, Meeting>;
  /** How much a word or phrase of a text tells. */
  weightOf(unit: Unit): number;
  isLight(unit: Unit): boolean;
}

/** How well a word of the query meets one of a text: as the same word, in other words, as a part of a phrase ... */
const ALIKE = { root: 1, meaning: 0.9, part: 0.55, wider: 0.7, prefix: 0.8, typo: 0.6 } as const;
/** Ways in which an unfinished or mistyped word is read. */
const MOST_READINGS = 12;
/** What words that tell little, and words that nothing in the guide holds, count of others. */
const LIGHT = 0.25;
const UNKNOWN = 0.4;

/** Indexes the texts of `entries` by the words of the trade. */
export function createTextIndex(entries: readonly Findable[], book: WordBook): TextIndex {
  const texts: IndexedText[] = entries.flatMap(({ label, alsoCalled = [], ask = '', summary = '' }, entry) =>
    [
      { kind: 'label' as const, text: label },
      ...alsoCalled.map((text) => ({ kind: 'alsoCalled' as const, text })),
      { kind: 'ask' as const, text: ask },
      { kind: 'summary' as const, text: summary },
    ]
      .filter(({ text }) => text !== '')
      .map(({ kind, text }) => {
        const words = book.wordsOf(text);
        const units = book.unitsOfWords(words);
        const telling = units.reduce((sum, unit) => sum + unit.roots.length, 0);
        return {
          entry,
          kind,
          units,
          light: units.map((unit) => book.isLight(unit)),
          smallWords: words.length - telling,
        };
      }),
  );
  const textsOf = new Map<string, IndexedText[]>();
  for (const text of texts) {
    for (const token of new Set(text.units.flatMap(tokensOf))) {
      const some = textsOf.get(token);
      if (some) some.push(text);
      else textsOf.set(token, [text]);
    }
  }
  /** In how many entries each token stands: an entry that is called many names says no more by each. */
  const holding = new Map(
    [...textsOf].map(([token, some]) => [token, new Set(some.map(({ entry }) => entry)).size]),
  );

  const vocabulary = createVocabulary(entries, book);
  const isHeld = (readings: ReadonlyMap<string, number>) =>
    [...readings.keys()].some((token) => holding.has(token));
  const telling = (held: number) => Math.log(1 + entries.length / (1 + held));

  function asked(unit: Unit, readings: ReadonlyMap<string, number>): Asked {
    const isLight = book.isLight(unit);
    const held = Math.max(
      ...[...readings].map(([token, alike]) => (alike >= ALIKE.meaning ? (holding.get(token) ?? 0) : 0)),
    );
    return {
      unit,
      readings,
      isLight,
      weight: telling(held) * (isLight ? LIGHT : isHeld(readings) ? 1 : UNKNOWN),
    };
  }

  return {
    texts,
    read(query, isTyping) {
      const words = book.wordsOf(query);
      const last = words.at(-1);
      return book.unitsOfWords(words).map((unit) => {
        const readings = readingsOf(unit);
        const isKnown = isHeld(readings);
        const word = words.find(({ from }) => from === unit.from);
        const isUnfinished = isTyping && unit.to === last?.to;
        if (word && unit.roots.length === 1 && (isUnfinished || !isKnown)) {
          for (const [token, alike] of vocabulary.near(word.plain, { isUnfinished, isKnown }))
            readings.set(token, Math.max(readings.get(token) ?? 0, alike));
        }
        return asked(unit, readings);
      });
    },
    readUnits: (units) => units.map((unit) => asked(unit, readingsOf(unit))),
    meetings({ readings }) {
      const best = new Map<IndexedText, Meeting>();
      for (const [token, alike] of readings) {
        for (const text of textsOf.get(token) ?? [])
          if ((best.get(text)?.alike ?? 0) < alike) best.set(text, { alike, token });
      }
      return best;
    },
    isLight: (unit) => book.isLight(unit),
    weightOf: (unit) => telling(holding.get(unit.token) ?? 0) * (book.isLight(unit) ? LIGHT : 1),
  };
}

/** What a word or phrase of a text is found by. */
export function tokensOf({ token, roots, wider }: Unit): string[] {
  return [...new Set([token, ...roots, ...wider.map((one) => `<${one}`)])];
}

/** How much of a text's word or phrase was met, 0 to 1, by these tokens and how alike each was. */
export function metShare({ token, roots, wider }: Unit, tokens: ReadonlyMap<string, number>): number {
  const byPart = roots.reduce((sum, root) => sum + (tokens.get(root) ?? 0), 0) / roots.length;
  const byWider = Math.max(0, ...wider.map((one) => tokens.get(`<${one}`) ?? 0));
  return Math.max(tokens.get(token) ?? 0, byPart, byWider);
}

/** What a word or phrase of a query may be met by. */
function readingsOf({ token, roots }: Unit): Map<string, number> {
  const readings = new Map<string, number>([[`<${token}`, ALIKE.wider]]);
  for (const root of roots) readings.set(root, roots.length > 1 ? ALIKE.part : ALIKE.root);
  readings.set(token, token.startsWith('=') ? Math.max(readings.get(token) ?? 0, ALIKE.meaning) : ALIKE.root);
  return readings;
}

interface Vocabulary {
  /** Tokens that an unfinished or mistyped word may be meant as, with how alike each is. */
  near(word: string, how: { isUnfinished: boolean; isKnown: boolean }): Map<string, number>;
}

/** Words as people type them, of the entries and of the trade, each with what it may be meant as. */
function createVocabulary(entries: readonly Findable[], book: WordBook): Vocabulary {
  const meant = new Map<string, Map<string, number>>();
  const learn = (word: string, unit: Unit) => {
    const known = meant.get(word) ?? new Map<string, number>();
    for (const [token, alike] of readingsOf(unit)) known.set(token, Math.max(alike, known.get(token) ?? 0));
    meant.set(word, known);
  };
  for (const { label, alsoCalled = [], ask = '', summary = '' } of entries) {
    for (const word of book.wordsOf([label, ...alsoCalled, ask, summary].join(' '))) {
      const [unit] = meant.has(word.plain) ? [] : book.unitsOfWords([word]);
      if (unit) learn(word.plain, unit);
    }
  }
  for (const { plain, unit } of book.rowWords) learn(plain, unit);
  const learnFrom = (readings: Map<string, number>, word: string, factor: number) => {
    for (const [token, alike] of meant.get(word) ?? [])
      readings.set(token, Math.max(readings.get(token) ?? 0, alike * factor));
  };
  const words = new MiniSearch<{ id: string }>({
    fields: ['id'],
    tokenize: (text) => [text],
    processTerm: (term) => term,
  });
  words.addAll([...meant.keys()].map((id) => ({ id })));
  return {
    near(word, { isUnfinished, isKnown }) {
      // Short words have too many neighbours to guess at.
      const fuzzy = isKnown || word.length < 5 ? false : word.length < 8 ? 1 : 2;
      const readings = new Map<string, number>();
      const found = words.search(word, { prefix: isUnfinished && word.length >= 2, fuzzy });
      for (const { id } of found.slice(0, MOST_READINGS)) {
        const near = String(id);
        learnFrom(readings, near, near.startsWith(word) ? ALIKE.prefix : ALIKE.typo);
      }
      // Two letters swapped count as two changes there, though it is one slip of the fingers.
      if (fuzzy !== false)
        for (const swapped of withTwoSwapped(word)) learnFrom(readings, swapped, ALIKE.typo);
      return readings;
    },
  };
}

function withTwoSwapped(word: string): string[] {
  return Array.from(
    { length: Math.max(0, word.length - 1) },
    (_, at) => word.slice(0, at) + word.charAt(at + 1) + word.charAt(at) + word.slice(at + 2),
  );
}
