/**
 * Takes a picture of every screen, in four sizes and both themes, to be looked at by people:
 * `npm run screens -- FOLDER`. The program must be built (`npm run build`).
 */
import { mkdirSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { showIn } from './show-in.ts';
import { launchStation } from '../processes/launch-station.ts';
import { addressesToVisit, visit } from './addresses-to-visit.ts';
import { BROWSER_ARGUMENTS, findBrowser } from './find-browser.ts';

const SIZES = [
  { name: 'desk', width: 1280, height: 800 },
  { name: 'wide', width: 1920, height: 1080 },
  { name: 'tablet', width: 820, height: 1180 },
  { name: 'phone', width: 390, height: 844 },
] as const;
const THEMES = ['light', 'dark'] as const;

/** What a still picture of an untouched screen would not show: the hands at work. */
async function showAtWork(page: Page, address: string): Promise<void> {
  if (address === 'intake') {
    await page.getByLabel('Search what is wrong').fill('popping');
    await page.getByRole('checkbox', { name: 'Popping or spitting while loading' }).check();
    await page.getByLabel('Search what is wrong').fill('');
  }
}

async function takeAll(folder: string): Promise<number> {
  const scratch = await mkdtemp(path.join(tmpdir(), 'beadwright-screens-'));
  const station = await launchStation(path.join(scratch, 'casebook.sqlite'));
  const browser = await chromium.launch({ executablePath: findBrowser(), args: BROWSER_ARGUMENTS });
  let taken = 0;
  try {
    const addresses = await addressesToVisit(station);
    mkdirSync(folder, { recursive: true });
    for (const theme of THEMES) {
      const context = await browser.newContext({ reducedMotion: 'reduce' });
      await showIn(station, theme);
      const page = await context.newPage();
      for (const size of SIZES) {
        await page.setViewportSize(size);
        for (const [index, address] of addresses.entries()) {
          await visit(page, station, address);
          await showAtWork(page, address);
          // Cases carry ids of this run: their place in the list, which follows the states of a case, names them.
          const name = address.replace(/^(case|timeline|spool)\/.*/, `$1-${index}`).replaceAll('/', '-');
          await page.screenshot({ path: path.join(folder, `${name}-${size.name}-${theme}.png`) });
          taken++;
        }
      }
      await context.close();
    }
  } finally {
    await browser.close();
    await station.stop();
    await rm(scratch, { recursive: true, force: true });
  }
  return taken;
}

const folder = process.argv[2];
if (folder === undefined) {
  console.error('say where the pictures go: npm run screens -- FOLDER');
  process.exitCode = 2;
} else console.log(`${await takeAll(folder)} pictures in ${folder}`);
