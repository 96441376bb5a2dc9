import { catalogue } from '../message.ts';

/** What stands between things that are no words of one sentence, and between sentences. */
export const listTexts = catalogue('lists', { between: '; ', betweenSentences: ' ' });
