import type { TemperatureUnit } from '../contract/display-choices.ts';
import { temperatureTexts } from './en/temperatures.ts';
import type { Message } from './message.ts';

const { m } = temperatureTexts;

/** What stands before a figure that is a difference of temperatures, not a temperature: "by 10 °C", "agrees within 5 °C". */
const DIFFERENCE_BEFORE =
  /(?:\bby(?:\s+another)?|\bwithin|\badd|\bsteps of|\bjumps? of|\b(?:more|less) than|\b(?:difference|overshoot)\b[^.;]*)\s*(?:about\s*)?$/i;
/** What stands after one: "10 °C hotter", "5 °C or more away". */
const DIFFERENCE_AFTER =
  /^\s*(?:or more\s+)?(?:above|below|hotter|colder|cooler|warmer|higher|lower|over|under|off|away|past|around)\b/i;

/**
 * Turns the °C figures of a text ("65 °C", "210 to 230 °C") into the reader's unit. Differences ("10 °C hotter",
 * "within 5 °C") scale without the shift of 32; which is which is told by the words around the figure,
 * or by the caller (`isKnownDifference`).
 */
export function inUnit(
  text: string,
  unit: TemperatureUnit,
  say: (message: Message) => string,
  isKnownDifference = false,
): string {
  if (unit === '°C') return text;
  return text.replace(
    /((?<![\w.)])[-−])?(\d+(?:\.\d+)?)(?:\s*(?:–|-|to)\s*(\d+(?:\.\d+)?))?\s*°C/g,
    (all: string, sign: string | undefined, low: string, high: string | undefined, at: number) => {
      const isDifference =
        isKnownDifference ||
        DIFFERENCE_BEFORE.test(text.slice(0, at)) ||
        DIFFERENCE_AFTER.test(text.slice(at + all.length));
      // A figure with decimals keeps them. One with hundredths was typed in °F: 37.78 °C is 100 °F.
      const typed = low.split('.')[1]?.length ?? 0;
      const decimals = typed >= 2 ? typed - 1 : typed;
      const toF = (celsius: number, decimals: number) => {
        const shown = ((celsius * 9) / 5 + (isDifference ? 0 : 32)).toFixed(decimals);
        return (typed >= 2 ? String(Number(shown)) : shown).replace('-', sign ?? '-');
      };
      const first = toF(sign ? -Number(low) : Number(low), decimals);
      return say(
        high
          ? m.fahrenheitFromTo({ low: first, high: toF(Number(high), decimals) })
          : m.fahrenheit({ value: first }),
      );
    },
  );
}
