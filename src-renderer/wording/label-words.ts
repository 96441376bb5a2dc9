import { listed } from '../messages/lists.ts';
import { valueTexts } from '../../src-core/words/en/values.ts';
import { inSentence } from '../../src-core/words/in-sentence.ts';
import type { Words } from '../../src-core/words/message.ts';

/** A complaint as a list of them names it: "Stringing, heavy". */
export function complaintWords(
  { label, value }: { readonly label: string; readonly value: Words },
  say: (words: Words) => string,
): string {
  return isPresent(value) ? label : listed([label, inSentence(say(value))], 'comma');
}

/** Whether a finding's value says no more than that it is there. */
export function isPresent(value: Words): boolean {
  return typeof value !== 'string' && 'id' in value && value.id === PRESENT;
}

const PRESENT = valueTexts.m.present().id;

/** A text whose figures stay on one line with their units: no-break spaces in "15 %", "4 to 6 h", "1.75 mm", "80 °C". */
export function keepTogether(text: string): string {
  return text.replace(/(\d) (?=(?:%|°[CF]|[dhgs]|min|mm|kg)(?![\p{L}\d]))/gu, '$1\u00a0');
}

/** Words of a table at the start of a sentence: their first letter large. */
export function asSentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
