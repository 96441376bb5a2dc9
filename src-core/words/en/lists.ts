import { catalogue } from '../message.ts';

/** What stands between things that are no words of one sentence. */
export const listTexts = catalogue('lists', { between: '; ' });
