import type { ValuesOf } from './pattern-values.ts';

/** A figure that is written with a fixed count of decimals. */
export interface Amount {
  readonly amount: number;
  readonly decimals: number;
}

/** A temperature, a difference of two, or a range from `celsius` up to `to`, °C; written in the reader's unit. */
export interface Temperature {
  readonly celsius: number;
  readonly to?: number | undefined;
  readonly decimals: number;
  readonly isDifference?: boolean | undefined;
}

/** A day, or the day of a time, ISO 8601. */
export interface Day {
  readonly day: string;
}

/** A time to the minute, ISO 8601, by the clock of a zone ("Europe/Berlin"). */
export interface Moment {
  readonly moment: string;
  readonly timeZone: string;
}

/** A month of the calendar, or of any year: "2026-03", "03". */
export interface Month {
  readonly month: string;
}

/** Several things that are no words of one sentence: "Strings: many; Width: 1.62 mm". */
export interface Series {
  readonly series: readonly Message[];
}

/** What stands in the place of a placeholder; several things are written as a list: "a, b and c". */
export type MessageValue =
  | string
  | number
  | Amount
  | Temperature
  | Day
  | Moment
  | Month
  | Message
  | readonly (string | Message)[]
  | Series;

/**
 * What core and main have to say: the id of a text with its values ("flow.cutOff", no sentence). Whoever shows it puts it into
 * words in the reader's language: screens by `src-renderer/display/told.ts`, documents and the command line by `in-english.ts`.
 */
export interface Message {
  readonly id: string;
  readonly values?: Readonly<Record<string, MessageValue>> | undefined;
}

/** A message, several sentences in their order, or words as they were given: by people, by the guide, or by earlier versions. */
export type Words = string | Message | readonly Message[];

type Given<V> = { readonly [Name in keyof V]: V[Name] extends number ? number : MessageValue };
type Maker<S extends string> =
  unknown extends ValuesOf<S> ? () => Message : (values: Given<ValuesOf<S>>) => Message;

/** The texts of one part of the core, in the syntax of ICU MessageFormat, and the messages that carry them. */
export interface Catalogue<Texts extends Readonly<Record<string, string>>> {
  readonly part: string;
  readonly texts: Texts;
  readonly m: { readonly [Key in keyof Texts]: Maker<Texts[Key]> };
}

/** Makes messages of texts: `m.cutOff()`, `m.layer({ layer: 3 })`. Keys and values are checked by type. */
export function catalogue<const Texts extends Readonly<Record<string, string>>>(
  part: string,
  texts: Texts,
): Catalogue<Texts> {
  const makers = Object.keys(texts).map((key) => {
    const id = `${part}.${key}`;
    return [
      key,
      (values?: Readonly<Record<string, MessageValue>>): Message => (values ? { id, values } : { id }),
    ] as const;
  });
  return { part, texts, m: Object.fromEntries(makers) as never };
}

/** A figure with this many decimals. */
export const fixed = (amount: number, decimals: number): Amount => ({ amount, decimals });
/** A temperature, °C. */
export const celsius = (value: number, decimals = 0): Temperature => ({ celsius: value, decimals });
/** A range of temperatures, °C. */
export const celsiusFromTo = (celsius: number, to: number): Temperature => ({
  celsius,
  to,
  decimals: Math.max(decimalsOf(celsius), decimalsOf(to)),
});
/** A difference of temperatures, kelvin. */
export const kelvin = (value: number, decimals = 0): Temperature => ({
  celsius: value,
  decimals,
  isDifference: true,
});
/** As many decimals as a figure was given with, up to six. */
export const decimalsOf = (value: number) => Math.min(6, String(value).split('.')[1]?.length ?? 0);
/** As many decimals as two figures that count need: 0.31, 1.2, 12. */
export const twoFigures = (amount: number): Amount =>
  fixed(amount, amount > 0 ? Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(amount)))) : 1);
