import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { FIRST_DISPLAY, type Display } from '../../src-core/contract/display-choices.ts';
import type { Casebook } from '../casebook/casebook.ts';
import { readDisplay, type StoredSetting } from '../casebook/shop-setting.repository.ts';

const NOBODY_SAID: StoredSetting<Display> = { value: FIRST_DISPLAY, revision: 0 };

/** How the shop wants its screens; the first settings where the casebook cannot say. */
export async function displayOf(casebook: Casebook): Promise<StoredSetting<Display>> {
  if (!casebook.isOpen) return NOBODY_SAID;
  try {
    return await readDisplay(casebook.db);
  } catch {
    // The page comes all the same, and says what is the matter with the casebook.
    return NOBODY_SAID;
  }
}

/** The page of the screens, marked with how the shop wants it: right from its first stroke, before any script has run. */
export async function readFirstPage(
  rendererFolder: string,
  display: StoredSetting<Display> = NOBODY_SAID,
  /** The printer whose page a device opens with. */
  printerId: string | null = null,
): Promise<string> {
  return marked(await readFile(path.join(rendererFolder, 'index.html'), 'utf8'), display, printerId);
}

function marked(
  html: string,
  { value: { theme, temperatureUnit }, revision }: StoredSetting<Display>,
  printerId: string | null,
): string {
  const home = printerId === null ? '' : ` data-home="printer/${printerId}"`;
  const marks = `data-theme="${theme}" data-temperature-unit="${temperatureUnit}" data-display-revision="${revision}"${home}`;
  return html.replace(/<html\b/, `<html ${marks}`);
}
