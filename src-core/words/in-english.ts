import { IntlMessageFormat } from 'intl-messageformat';
import type { Words } from './message.ts';
import { sayWords, type Sayer } from './say-words.ts';
import { coreTexts } from './texts.ts';

const ENGLISH = 'en-GB';
const formats = new Map<string, IntlMessageFormat>();
// Made once: a long log is put into words at each of its entries.
const DAYS = new Intl.DateTimeFormat(ENGLISH, {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});
const LISTS = new Intl.ListFormat(ENGLISH, { type: 'conjunction' });

const english: Sayer = {
  text(id, values) {
    const pattern = coreTexts.get(id) as ConstructorParameters<typeof IntlMessageFormat>[0] | undefined;
    if (pattern === undefined) return id;
    const format = formats.get(id) ?? new IntlMessageFormat(pattern, ENGLISH);
    formats.set(id, format);
    return String(format.format(values));
  },
  figure: (value, decimals) => (decimals === null ? String(value) : value.toFixed(decimals)),
  temperature({ celsius, to, decimals }) {
    const upTo = to === undefined ? '' : ` to ${to.toFixed(decimals)}`;
    return `${celsius.toFixed(decimals)}${upTo} °C`;
  },
  day: (iso) => DAYS.format(new Date(iso)),
  given: (words) => words,
  list: (parts) => LISTS.format(parts),
};

/** What core and main have to say, in English and °C: for documents and the command line. An unknown message is said by its id. */
export function inEnglish(words: Words): string {
  return sayWords(words, english);
}
