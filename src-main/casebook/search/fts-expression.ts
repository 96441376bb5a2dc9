import type { CaseFilter } from '../../../src-core/contract/casebook-view.ts';
import type { SoughtWords } from './case-search.ts';

/** What FTS5's unicode61 takes for part of a word. */
const IN_A_WORD = /[\p{L}\p{N}\p{Co}]/u;

/**
 * What is sought, in the language of FTS5; null where nothing of it has a letter or a figure, so that there is nothing to look
 * for. Every text is quoted: nothing in it is taken for an operator.
 */
export function ftsOf(sought: readonly SoughtWords[]): string | null {
  const groups = sought.flatMap(({ texts, printerIds, number }) => {
    const words = texts.filter((text) => IN_A_WORD.test(text));
    const marks = [...(number === null ? [] : [`n${number}`]), ...printerIds.map((id) => `p${id}`)];
    const either = [
      ...(words.length > 0 ? [`words : (${words.map((text) => `${quoted(text)} *`).join(' OR ')})`] : []),
      ...(marks.length > 0 ? [anyMark(marks)] : []),
    ];
    return either.length > 0 ? [`(${either.join(' OR ')})`] : [];
  });
  return groups.length > 0 ? groups.join(' AND ') : null;
}

/** The filter's fields as marks, the states apart: tabs count all of them. */
export function marksOf(filter: CaseFilter): string[] {
  return [
    ...(filter.printerId === null ? [] : [`p${filter.printerId}`]),
    ...(filter.spoolId === null ? [] : [`f${filter.spoolId}`]),
    ...(filter.openedBy === null ? [] : [`o${Buffer.from(filter.openedBy).toString('hex')}`]),
    ...(filter.practice === null ? [] : [`r${withoutHyphens(filter.practice)}`]),
    ...(filter.profile === null ? [] : [`w${Buffer.from(filter.profile).toString('hex')}`]),
    ...(filter.tag === null ? [] : [`t${Buffer.from(filter.tag).toString('hex')}`]),
    ...(filter.cause === null ? [] : [`c${withoutHyphens(filter.cause)}`]),
  ];
}

export function stateMark(state: string): string {
  return `s${withoutHyphens(state)}`;
}

export function anyMark(marks: readonly string[]): string {
  return `marks : (${marks.map(quoted).join(' OR ')})`;
}

export function allOf(parts: readonly string[]): string {
  return parts.map((part) => `(${part})`).join(' AND ');
}

function quoted(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

function withoutHyphens(id: string): string {
  return id.replaceAll('-', '');
}
