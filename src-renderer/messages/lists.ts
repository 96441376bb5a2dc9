import { listTexts } from '../../src-core/words/en/lists.ts';
import { locale } from './language.ts';
import { textInLanguage } from './messages.ts';

const TYPES = { and: 'conjunction', or: 'disjunction', comma: 'unit' } as const;

/**
 * Several things as one, as the page's language joins them: "a, b and c", where one of them is enough "a, b or c", and where they stand
 * beside each other in a narrow place "a, b, c".
 */
export function listed(parts: readonly string[], joinedBy: keyof typeof TYPES = 'and'): string {
  return new Intl.ListFormat(locale(), { type: TYPES[joinedBy] }).format(parts);
}

/** The same of things that the markup shows in its own way, with what stands between them. */
export function listedPieces<Thing extends object>(
  things: readonly Thing[],
  joinedBy: keyof typeof TYPES = 'and',
): readonly (Thing | string)[] {
  return new Intl.ListFormat(locale(), { type: TYPES[joinedBy] })
    .formatToParts(things.map((_, at) => String(at)))
    .map(({ type, value }) => (type === 'element' ? (things[Number(value)] ?? value) : value));
}

/** Things that are no words of one sentence, as they hold commas of their own: "Strings: many; Width: 1.62 mm". */
export function series(parts: readonly string[]): string {
  return parts.join(inLanguage('between'));
}

/** Whole sentences one after the other; what is empty is left out. */
export function sentences(parts: readonly string[]): string {
  return parts.filter((one) => one !== '').join(inLanguage('betweenSentences'));
}

function inLanguage(key: keyof typeof listTexts.texts): string {
  return textInLanguage(`${listTexts.part}.${key}`, listTexts.texts[key], {}).join('');
}
