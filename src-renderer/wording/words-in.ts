import type { TemperatureUnit } from '../../src-core/contract/display-choices.ts';
import { inUnit as withUnit } from '../../src-core/words/in-unit.ts';
import type { Words } from '../../src-core/words/message.ts';
import { sayWords, type Sayer } from '../../src-core/words/say-words.ts';
import { coreTexts } from '../../src-core/words/texts.ts';
import { fixed } from '../messages/figures.ts';
import { locale, type Pattern } from '../messages/language.ts';
import { listed } from '../messages/lists.ts';
import { textInLanguage } from '../messages/messages.ts';
import { calendarDay, dateOnly, dateTime } from './format.ts';
import { monthLabel, monthOfAnyYear } from './month-words.ts';

function sayerIn(temperatureUnit: TemperatureUnit): Sayer {
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
    day: (iso) => (iso.length === '2026-11-28'.length ? calendarDay(iso) : dateOnly(iso)),
    time: ({ moment, timeZone }) => dateTime(moment, timeZone),
    month: (month) => (month.length > 2 ? monthLabel(month) : monthOfAnyYear(month)),
    list: (parts) => listed(parts),
    temperatureUnit,
  };
}

/**
 * What core and main have to say, in the page's language and this unit. Words as they were given are the guide's, people's, or of
 * earlier versions.
 */
export function wordsIn(words: Words, unit: TemperatureUnit): string {
  return sayWords(words, sayerIn(unit));
}

/** Turns the °C figures of a text into this unit; differences are told by the words around them, or by the caller. */
export function inUnit(text: string, unit: TemperatureUnit, isKnownDifference = false): string {
  return withUnit(text, unit, (message) => wordsIn(message, unit), isKnownDifference);
}
