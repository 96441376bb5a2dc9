import { IntlMessageFormat } from 'intl-messageformat';
import type { TemperatureUnit } from '../contract/display-choices.ts';
import type { Sayer } from './say-words.ts';
import { coreTexts } from './texts.ts';

/** What outside a screen texts are written in. */
export interface Tongue {
  /** What Intl writes days, figures and lists by. */
  readonly locale: string;
  /** Texts by id, in the syntax of ICU MessageFormat; what is missing is said in English. */
  readonly texts: ReadonlyMap<string, string>;
  readonly temperatureUnit: TemperatureUnit;
}

type Pattern = ConstructorParameters<typeof IntlMessageFormat>[0];

/** Says messages in a language outside the screens: for documents, and in English for the command line. An unknown one is said by its id. */
export function sayerIn({ locale, texts, temperatureUnit }: Tongue): Sayer {
  const formats = new Map<string, IntlMessageFormat>();
  // Made once: a long log is put into words at each of its entries.
  const day = { day: 'numeric', month: 'short', year: 'numeric' } as const;
  const days = new Intl.DateTimeFormat(locale, { ...day, timeZone: 'UTC' });
  const months = new Intl.DateTimeFormat(locale, { month: 'long', year: 'numeric', timeZone: 'UTC' });
  const monthsOfAnyYear = new Intl.DateTimeFormat(locale, { month: 'long', timeZone: 'UTC' });
  const lists = new Intl.ListFormat(locale, { type: 'conjunction' });
  const clocks = new Map<string, Intl.DateTimeFormat>();
  const clockOf = (timeZone: string) => {
    const clock =
      clocks.get(timeZone) ??
      new Intl.DateTimeFormat(locale, { ...day, hour: '2-digit', minute: '2-digit', timeZone });
    clocks.set(timeZone, clock);
    return clock;
  };
  return {
    text(id, values) {
      const pattern = texts.get(id) ?? (coreTexts.get(id) as Pattern | undefined);
      if (pattern === undefined) return id;
      const format = formats.get(id) ?? new IntlMessageFormat(pattern, locale);
      formats.set(id, format);
      return String(format.format(values));
    },
    figure: (value, decimals) =>
      value.toLocaleString(locale, {
        useGrouping: false,
        ...(decimals === null
          ? { maximumFractionDigits: 6 }
          : { minimumFractionDigits: decimals, maximumFractionDigits: decimals }),
      }),
    day: (iso) => days.format(new Date(iso)),
    time: ({ moment, timeZone }) => clockOf(timeZone).format(new Date(moment)),
    month: (month) =>
      month.length > 2
        ? months.format(new Date(`${month}-15T12:00:00Z`))
        : monthsOfAnyYear.format(new Date(`2026-${month}-15T12:00:00Z`)),
    list: (parts) => lists.format(parts),
    temperatureUnit,
  };
}
