import type { Words } from '../../src-core/words/message.ts';
import { wordsIn } from '../wording/words-in.ts';
import { display } from './display-settings.svelte.ts';

/** What core and main have to say, in the page's language and the reader's unit; follows the setting when read in markup. */
export function told(words: Words): string {
  return wordsIn(words, display.temperatureUnit);
}
