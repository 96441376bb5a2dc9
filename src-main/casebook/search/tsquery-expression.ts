import type { CaseFilter } from '../../../src-core/contract/casebook-view.ts';
import type { SoughtWords } from './case-search.ts';

/**
 * What is sought, in the language of PostgreSQL's tsquery; null where nothing of it has a letter or a figure. Words are taken
 * apart as the index takes them; every one is quoted, so that nothing in it is taken for an operator.
 */
export function tsQueryOf(sought: readonly SoughtWords[]): string | null {
  const groups = sought.flatMap(({ texts, printerIds, number }) => {
    const either = [
      ...texts.flatMap(phraseOf),
      ...(number === null ? [] : [quoted(`~n${number}`)]),
      ...printerIds.map((id) => quoted(`~p${id}`)),
    ];
    return either.length > 0 ? [`(${either.join(' | ')})`] : [];
  });
  return groups.length > 0 ? groups.join(' & ') : null;
}

/** The filter's fields as marks; states and times are columns of the index. */
export function tsMarksOf(filter: CaseFilter): string[] {
  const marks = {
    '~p': filter.printerId,
    '~f': filter.spoolId,
    '~o': filter.openedBy,
    '~r': filter.practice,
    '~w': filter.profile,
    '~t': filter.tag,
    '~c': filter.cause,
  };
  return Object.entries(marks).flatMap(([mark, of]) => (of === null ? [] : [quoted(mark + of)]));
}

/** Words that stand side by side, the last one from its beginning on. */
function phraseOf(text: string): string[] {
  const words = text
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}\p{Co}\p{M}]+/u)
    .filter(Boolean);
  return words.length === 0 ? [] : [`(${words.map(quoted).join(' <-> ')}:*)`];
}

function quoted(word: string): string {
  return `'${word.replace(/['\\]/g, (one) => one + one)}'`;
}
