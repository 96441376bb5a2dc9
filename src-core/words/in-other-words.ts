import { plain, type WordBook } from './word-book.ts';

/** A beginning shorter than this would be met by everything. */
const SHORTEST = 3;

/**
 * For a search that knows texts only (the casebook's): each word or phrase of the query with the texts that say it too, lower
 * case. "jams" is also "jam", "clog" and "block"; any of them will do, but one of each.
 */
export function inOtherWords(query: string, book: WordBook): string[][] {
  const units = book.unitsOf(query).filter(({ roots }) => roots.length > 0);
  const phrases = units.filter(({ roots }) => roots.length > 1);
  const pieces = [...query.matchAll(/\S+/gu)].filter(
    ({ index }) => !phrases.some(({ from, to }) => index >= from && index < to),
  );
  return [
    ...phrases.map(({ token, from, to }) => [plain(query.slice(from, to)), ...rowOf(token, book)]),
    ...pieces.map(([piece]) => {
      const [unit, ...more] = book.unitsOf(piece);
      const [word] = book.wordsOf(piece);
      if (!unit || !word || more.length > 0 || /\d/u.test(piece)) return [piece.toLowerCase()];
      const typed = piece.toLowerCase();
      // Texts keep their accents: "östlicher" is looked for as it stands, too.
      const accented = plain(piece) === typed ? [] : [typed];
      return [commonBeginning(word.plain, word.root), ...accented, ...rowOf(unit.token, book)];
    }),
  ].map((texts) => [...new Set(texts)]);
}

function rowOf(token: string, book: WordBook): string[] {
  const row = book.words.same.find(([first]) => `=${first ?? ''}` === token);
  return (row ?? []).map(plain);
}

/** What is sure to stand in every form of the word: "clogging" and "clogs" share "clog". */
function commonBeginning(word: string, root: string): string {
  let length = 0;
  while (length < root.length && root[length] === word[length]) length++;
  return length >= SHORTEST ? word.slice(0, length) : word;
}
