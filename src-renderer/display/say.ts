import type { Words } from '../../src-core/words/message.ts';
import { inUnit, wordsIn } from '../wording/words-in.ts';
import { isDifferenceQuantity } from '../wording/temperature-input.ts';
import { display } from './display-settings.svelte.ts';

/** A text of the guide or the host with its temperatures in the reader's unit; follows the setting when read in markup. */
export function say(text: string): string {
  return inUnit(text, display.temperatureUnit);
}

/** The same for a text about a measured finding, whose figure may be a difference of temperatures. */
export function sayMeasured(words: Words, quantity: string | undefined): string {
  if (typeof words !== 'string') return wordsIn(words, display.temperatureUnit);
  return inUnit(words, display.temperatureUnit, quantity !== undefined && isDifferenceQuantity(quantity));
}
