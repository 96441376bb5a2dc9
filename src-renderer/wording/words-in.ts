import type { TemperatureUnit } from '../../src-core/contract/display-choices.ts';
import type { Words } from '../../src-core/words/message.ts';
import { sayWords, type Sayer } from '../../src-core/words/say-words.ts';
import { coreTexts } from '../../src-core/words/texts.ts';
import { fixed } from '../messages/figures.ts';
import { locale, type Pattern } from '../messages/language.ts';
import { listed } from '../messages/lists.ts';
import { textInLanguage } from '../messages/messages.ts';
import { m } from '../messages/en/format.ts';
import { calendarDay, dateOnly, inUnit } from './format.ts';

function sayerIn(unit: TemperatureUnit): Sayer {
  return {
    text(id, values) {
      const english = coreTexts.get(id) as Pattern | undefined;
      // A newer casebook may know messages that this version does not.
      return english === undefined ? id : textInLanguage(id, english, values).join('');
    },
    figure: (value, decimals) =>
      decimals === null
        ? value.toLocaleString(locale(), { useGrouping: false, maximumFractionDigits: 6 })
        : fixed(value, decimals),
    temperature({ celsius, to, decimals, isDifference = false }) {
      const inReaders = (value: number) =>
        fixed(unit === '°C' ? value : (value * 9) / 5 + (isDifference ? 0 : 32), decimals);
      const first = inReaders(celsius);
      if (to === undefined) return unit === '°C' ? m.celsius({ value: first }) : m.f({ first });
      const last = inReaders(to);
      return unit === '°C' ? m.celsiusFromTo({ first, last }) : m.toF({ first, toF: last });
    },
    day: (iso) => (iso.length === '2026-11-28'.length ? calendarDay(iso) : dateOnly(iso)),
    list: (parts) => listed(parts),
    given: (words) => inUnit(words, unit),
  };
}

/**
 * What core and main have to say, in the page's language and this unit. Words as they were given are the guide's, people's, or of
 * earlier versions.
 */
export function wordsIn(words: Words, unit: TemperatureUnit): string {
  return sayWords(words, sayerIn(unit));
}
