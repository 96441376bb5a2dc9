import type { Words } from './message.ts';
import { sayWords, type Sayer } from './say-words.ts';
import { sayerIn } from './sayer-in.ts';

/** English, °C. */
export const english: Sayer = {
  ...sayerIn({ locale: 'en-GB', texts: new Map(), temperatureUnit: '°C' }),
  // Intl takes far longer, which long logs would feel.
  figure: (value, decimals) => (decimals === null ? String(value) : value.toFixed(decimals)),
};

/** What core and main have to say, in English and °C: for documents and the command line. An unknown message is said by its id. */
export function inEnglish(words: Words): string {
  return sayWords(words, english);
}
