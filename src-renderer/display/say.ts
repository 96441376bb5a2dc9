import { inUnit } from '../wording/format.ts';
import { isDifferenceQuantity } from '../wording/temperature-input.ts';
import { display } from './display-settings.svelte.ts';

/** A text of the guide or the host with its temperatures in the reader's unit; follows the setting when read in markup. */
export function say(text: string): string {
  return inUnit(text, display.temperatureUnit);
}

/** The same for a text about a measured finding, whose figure may be a difference of temperatures. */
export function sayMeasured(text: string, quantity: string | undefined): string {
  return inUnit(text, display.temperatureUnit, quantity !== undefined && isDifferenceQuantity(quantity));
}
