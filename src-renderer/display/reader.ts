import type { Reader } from '../../src-core/contract/report-view.ts';
import { languageOfPage } from '../messages/language.ts';
import { display } from './display-settings.svelte.ts';

/** Who reads this page, for documents that the host writes. */
export function reader(): Reader {
  return { language: languageOfPage().tag, temperatureUnit: display.temperatureUnit };
}
