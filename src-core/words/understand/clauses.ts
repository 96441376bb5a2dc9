import type { Unit, Word, WordBook } from '../word-book.ts';
import type { Place } from './chips.ts';

/** A piece of a text that says one thing or two, with what has been read of it so far. */
export class Clause {
  readonly text: string;
  readonly words: readonly Word[];
  readonly #book: WordBook;
  readonly #used = new Set<Word>();

  constructor(text: string, words: readonly Word[], book: WordBook) {
    this.text = text;
    this.words = words;
    this.#book = book;
  }

  /** Words that nothing was read from yet. */
  get unread(): readonly Word[] {
    return this.words.filter((word) => !this.#used.has(word));
  }

  /** What the unread words say; empty where only small words are left. */
  get units(): readonly Unit[] {
    const { unread } = this;
    return unread.every((word) => this.#book.isSmall(word)) ? [] : this.#book.unitsOfWords(unread);
  }

  /** This clause and one that follows it, as one. */
  with(next: Clause): Clause {
    return new Clause(this.text, [...this.words, ...next.words], this.#book);
  }

  /** Marks the words in this place as read. */
  use({ from, to }: Place): void {
    for (const word of this.words) if (word.from >= from && word.to <= to) this.#used.add(word);
  }
}

/** Commas, full stops and words between two statements; no point or comma within a number, and no "while" that says when ("while loading"). */
const BETWEEN =
  /[;:!?\n()]+|[,.](?!\d)|(?<!\d)[,.]|\s[-–]\s|\b(?:and|but|although|though|however|yet|while(?!\s+\p{L}+ing\b)|whereas|because|so)\b/giu;

/** Splits a text where one statement ends and another begins. */
export function clausesOf(text: string, book: WordBook): Clause[] {
  const words = book.wordsOf(text);
  const ends = [...text.matchAll(BETWEEN)].map((match) => match.index);
  const clauses: Clause[] = [];
  let begin = 0;
  for (const end of [...ends, text.length]) {
    const inside = words.filter(({ from }) => from >= begin && from < end);
    if (inside.length > 0) clauses.push(new Clause(text, inside, book));
    begin = end;
  }
  return clauses;
}
