import type { Condition, Material } from '../../knowledge/schema.ts';
import type { Word, WordBook } from '../word-book.ts';
import type { ConditionChip } from './chips.ts';
import type { Clause } from './clauses.ts';
import { createPhraseSpotter } from './spot-phrases.ts';

interface SaidValue {
  readonly condition: string;
  readonly value: string;
}

/** Circumstances whose values are called by their own names wherever they stand: ABS, carbon fibre. */
export const CALLED_BY_NAME: readonly string[] = ['polymer', 'filler'];
const ARTICLE = /\b(the|a|an|my|our|from|your)\s+$/iu;

/** Reads the circumstances of a clause that are a choice: polymer, filler, storage, last change ... */
export function createValueReader(
  conditions: readonly Condition[],
  materials: readonly Material[],
  book: WordBook,
) {
  const phrases = conditions.flatMap((condition) =>
    (condition.values ?? []).flatMap((value) => {
      const material = CALLED_BY_NAME.includes(condition.id)
        ? materials.find(({ id }) => id === value.id)
        : undefined;
      const names = CALLED_BY_NAME.includes(condition.id) && value.id !== 'none' ? [value.label] : [];
      const words = book.words.values.filter(
        (one) => one.condition === condition.id && one.value === value.id,
      );
      const all = [
        ...names,
        ...value.alsoCalled,
        ...(material?.alsoCalled ?? []),
        ...words.flatMap((one) => one.words),
      ];
      const means: SaidValue = { condition: condition.id, value: value.id };
      return [...new Set(all.map((phrase) => phrase.toLowerCase()))].map((phrase) => ({ phrase, means }));
    }),
  );
  const spot = createPhraseSpotter(
    phrases,
    book,
    (a, b) => a.condition === b.condition && a.value === b.value,
  );

  return (clause: Clause, words: readonly Word[] = clause.unread): ConditionChip[] =>
    spot(words).flatMap((place) => {
      const said = clause.text.slice(place.from, place.to);
      if (isSomethingElse(said, clause.text.slice(0, place.from))) return [];
      clause.use(place);
      // One word for several ("nylon"): which of them is for the operator to say.
      const isSure = place.means.length === 1;
      return place.means.map(({ condition, value }) => ({
        kind: 'condition' as const,
        id: condition,
        value,
        said,
        places: [{ from: place.from, to: place.to }],
        score: isSure ? 0.9 : 0.5,
        isSure,
      }));
    });
}

/** Two letters name a polymer or a filler only in capitals, and not behind an article: "the PC" is a computer. */
function isSomethingElse(said: string, before: string): boolean {
  if (!/^\p{L}{2}$/u.test(said)) return false;
  return said !== said.toUpperCase() || ARTICLE.test(before);
}
