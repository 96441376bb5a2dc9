/**
 * Draws the icons of the installed page from `src-renderer/public/icon.svg`, beside it: `npx node tests/browser/draw-icons.ts`. On
 * paper, with room around, so that a system may cut them round.
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { BROWSER_ARGUMENTS, findBrowser } from './find-browser.ts';

const FOLDER = path.join(import.meta.dirname, '..', '..', 'src-renderer', 'public');
const drawing = readFileSync(path.join(FOLDER, 'icon.svg'), 'utf8');
const browser = await chromium.launch({ executablePath: findBrowser(), args: BROWSER_ARGUMENTS });
for (const side of [192, 512]) {
  const page = await browser.newPage({ viewport: { width: side, height: side } });
  await page.setContent(
    `<style>body { margin: 0; display: grid; place-items: center; height: 100vh; background: #f4f2ec } svg { width: 62% }</style>${drawing}`,
  );
  await page.screenshot({ path: path.join(FOLDER, `icon-${side}.png`) });
}
await browser.close();
