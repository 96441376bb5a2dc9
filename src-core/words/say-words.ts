import { listTexts } from './en/lists.ts';
import type { Filled, Message, MessageValue, Temperature, Words } from './message.ts';

/** The placeholder that a plural is chosen by; whole, so that it is written alike in any language. */
export const COUNT = 'count';
/** A place for a figure in a text of the guide. */
export const PLACE = /\{([a-z-]+)\}/g;

/** How a reader wants figures written, and where the texts of messages are. */
export interface Sayer {
  /** The text of a message with its values filled in: strings, and the number that chooses a plural. */
  text(id: string, values: Readonly<Record<string, string | number>>): string;
  /** With a fixed count of decimals; null leaves as many as there are. */
  figure(value: number, decimals: number | null): string;
  temperature(value: Temperature): string;
  day(iso: string): string;
  list(parts: readonly string[]): string;
  /** Words as they were given: by the guide or by people. */
  given(words: string): string;
}

/** Puts into words what core and main have to say; words as they were given stay. */
export function sayWords(words: Words, sayer: Sayer): string {
  if (typeof words === 'string') return sayer.given(words);
  if (isSeveral(words)) return words.map((one) => sayWords(one, sayer)).join(' ');
  return 'guide' in words ? sayFilled(words, sayer) : sayMessage(words, sayer);
}

function sayFilled({ guide, places }: Filled, sayer: Sayer): string {
  // The guide's own words first: the figures in the places are in the reader's unit already.
  return sayer.given(guide).replace(PLACE, (whole, name: string) => {
    const value = places[name];
    return value === undefined ? whole : sayValue(value, sayer);
  });
}

function sayMessage({ id, values = {} }: Message, sayer: Sayer): string {
  const filled = Object.entries(values).map(
    ([name, value]) =>
      [name, name === COUNT && typeof value === 'number' ? value : sayValue(value, sayer)] as const,
  );
  return sayer.text(id, Object.fromEntries(filled));
}

function sayValue(value: MessageValue, sayer: Sayer): string {
  if (typeof value === 'string') return sayer.given(value);
  if (typeof value === 'number') return sayer.figure(value, null);
  if (isSeveral(value)) return sayer.list(value.map((one) => sayWords(one, sayer)));
  if ('celsius' in value) return sayer.temperature(value);
  if ('day' in value) return sayer.day(value.day);
  if ('amount' in value) return sayer.figure(value.amount, value.decimals);
  if ('series' in value)
    return value.series.map((one) => sayMessage(one, sayer)).join(sayMessage(listTexts.m.between(), sayer));
  return sayMessage(value, sayer);
}

function isSeveral(value: unknown): value is readonly (string | Message)[] {
  return Array.isArray(value);
}
