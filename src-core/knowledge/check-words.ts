import { createWordBook } from '../words/word-book.ts';
import type { KnowledgeFault } from './fault.ts';
import { nearestId } from './nearest-id.ts';
import type { ParsedKnowledgeFile } from './parse.ts';
import type { PlacedLists } from './placed-lists.ts';
import type { Words } from './words-schema.ts';

type Where = { readonly file: string; readonly line: number };

/** Words of the trade: in one file only, no word in two rows, and nothing named that the guide does not know. */
export function checkWords(files: readonly ParsedKnowledgeFile[], lists: PlacedLists): KnowledgeFault[] {
  const [first, ...others] = files.filter(({ content }) => content.words);
  const words = first?.content.words;
  if (!first || !words) return [];
  const at = (...path: PropertyKey[]): Where => ({
    file: first.file,
    line: first.lineOf(['words', ...path]),
  });
  return [
    ...others.map((file) => ({
      code: 'words-in-two-files',
      file: file.file,
      line: file.lineOf(['words']),
      message: `words of the trade stand in ${first.file} already`,
      remedy: 'move them there',
    })),
    ...wordsInTwoRows(words, at),
    ...unknownNames(words, lists, at),
  ];
}

function wordsInTwoRows(words: Words, at: (...path: PropertyKey[]) => Where): KnowledgeFault[] {
  // Without the rows themselves a phrase is told by its roots alone.
  const book = createWordBook({ ...words, same: [] });
  const rowOf = new Map<string, number>();
  return words.same.flatMap((row, index) =>
    row.flatMap((phrase): KnowledgeFault[] => {
      const key = book
        .unitsOf(phrase)
        .map(({ token }) => token)
        .join(' ');
      const known = rowOf.get(key);
      rowOf.set(key, index);
      if (known === undefined || known === index) return [];
      const message = `"${phrase}" stands in the row of "${words.same[known]?.[0] ?? ''}" and in that of "${row[0] ?? ''}"`;
      return [{ code: 'word-in-two-rows', ...at('same', index), message, remedy: 'keep it in one of them' }];
    }),
  );
}

function unknownNames(
  { values, numbers, ruledOut }: Words,
  lists: PlacedLists,
  at: (...path: PropertyKey[]) => Where,
): KnowledgeFault[] {
  const conditions = new Map(lists.conditions.map(({ entry }) => [entry.id, entry]));
  const observations = new Set(lists.observations.map(({ entry }) => entry.id));
  const unknown = (where: Where, what: string, id: string, known: Iterable<string>): KnowledgeFault => {
    const near = nearestId(id, known);
    const remedy = near ? `did you mean "${near}"?` : 'name one that the guide has';
    return {
      code: 'dangling-id',
      ...where,
      message: `the words name ${what} "${id}", which is not there`,
      remedy,
    };
  };
  return [
    ...values.flatMap(({ condition, value }, index): KnowledgeFault[] => {
      const entry = conditions.get(condition);
      if (!entry) return [unknown(at('values', index), 'the condition', condition, conditions.keys())];
      const known = (entry.values ?? []).map(({ id }) => id);
      return known.includes(value)
        ? []
        : [unknown(at('values', index), `for ${condition} the value`, value, known)];
    }),
    ...numbers.flatMap(({ condition }, index) =>
      conditions.get(condition)?.number
        ? []
        : [unknown(at('numbers', index), 'the measured condition', condition, conditions.keys())],
    ),
    ...ruledOut.flatMap(({ observation }, index) =>
      observations.has(observation)
        ? []
        : [unknown(at('ruledOut', index), 'the observation', observation, observations)],
    ),
  ];
}
