import type { TemperatureUnit } from '../contract/display-choices.ts';
import { listTexts } from './en/lists.ts';
import { temperatureTexts } from './en/temperatures.ts';
import { inUnit } from './in-unit.ts';
import {
  fixed,
  type Filled,
  type Message,
  type MessageValue,
  type Moment,
  type Temperature,
  type Words,
} from './message.ts';

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
  day(iso: string): string;
  time(moment: Moment): string;
  /** "2026-03" as "March 2026", "03" as "March". */
  month(month: string): string;
  list(parts: readonly string[]): string;
  readonly temperatureUnit: TemperatureUnit;
}

/** Puts into words what core and main have to say; words as they were given stay. */
export function sayWords(words: Words, sayer: Sayer): string {
  if (typeof words === 'string') return sayGiven(words, sayer);
  if (isSeveral(words))
    return words.map((one) => sayWords(one, sayer)).join(sayMessage(listTexts.m.betweenSentences(), sayer));
  return 'guide' in words ? sayFilled(words, sayer) : sayMessage(words, sayer);
}

function sayFilled({ guide, places }: Filled, sayer: Sayer): string {
  // The guide's own words first: the figures in the places are in the reader's unit already.
  return sayGiven(guide, sayer).replace(PLACE, (whole, name: string) => {
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

/** Puts into words what stands in the place of a placeholder, or by itself in a cell of a table. */
export function sayValue(value: MessageValue, sayer: Sayer): string {
  if (typeof value === 'string') return sayGiven(value, sayer);
  if (typeof value === 'number') return sayer.figure(value, null);
  if (isSeveral(value)) return sayer.list(value.map((one) => sayWords(one, sayer)));
  if ('guide' in value) return sayFilled(value, sayer);
  if ('celsius' in value) return sayTemperature(value, sayer);
  if ('day' in value) return sayer.day(value.day);
  if ('moment' in value) return sayer.time(value);
  if ('month' in value) return sayer.month(value.month);
  if ('amount' in value) return sayer.figure(value.amount, value.decimals);
  if ('series' in value)
    return value.series.map((one) => sayMessage(one, sayer)).join(sayMessage(listTexts.m.between(), sayer));
  return sayMessage(value, sayer);
}

/** Words as they were given, by the guide or by people: their temperatures in the reader's unit. */
function sayGiven(words: string, sayer: Sayer): string {
  return inUnit(words, sayer.temperatureUnit, (message) => sayMessage(message, sayer));
}

function sayTemperature({ celsius, to, decimals, isDifference = false }: Temperature, sayer: Sayer): string {
  const { m } = temperatureTexts;
  const isCelsius = sayer.temperatureUnit === '°C';
  const inReaders = (value: number) =>
    fixed(isCelsius ? value : (value * 9) / 5 + (isDifference ? 0 : 32), decimals);
  const value = inReaders(celsius);
  if (to === undefined) return sayMessage(isCelsius ? m.celsius({ value }) : m.fahrenheit({ value }), sayer);
  const range = { low: value, high: inReaders(to) };
  return sayMessage(isCelsius ? m.celsiusFromTo(range) : m.fahrenheitFromTo(range), sayer);
}

function isSeveral(value: unknown): value is readonly (string | Message)[] {
  return Array.isArray(value);
}
