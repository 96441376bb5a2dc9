import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { expect, it } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

it('a case is begun in own words with the keyboard alone, on a narrow screen', async () => {
  const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  const complaints = complaintsOf(page);
  await page.goto(`${station.address}#/intake`);
  const field = page.getByLabel('Start in your own words');
  await field.fill('heavy stringing, no warping, 0.6 nozzle, dried it, no change');
  await field.press('Enter');
  const chips = page.getByRole('toolbar', { name: 'What was understood' });
  await chips.getByRole('button', { name: /^Stringing, heavy/ }).waitFor();
  const status = page.getByRole('status').first();
  const figures = async () => ((await status.textContent()) ?? '').match(/\d+/g)?.map(Number) ?? [];
  await expect.poll(async () => (await figures())[0]).toBeGreaterThanOrEqual(3);
  const [understood = 0, toConfirm = 0] = await figures();
  await expect
    .poll(() => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth))
    .toBe(0);

  await page.evaluate(axeSource);
  const { violations } = await page.evaluate<{ violations: { id: string; nodes: { html: string }[] }[] }>(
    `axe.run('.own-words', { resultTypes: ['violations'] })`,
  );
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);

  // Down into the chips, along them, and one off: the focus stays among them.
  await field.press('ArrowDown');
  const focused = () => page.evaluate(() => document.activeElement?.textContent ?? '');
  await expect.poll(focused).toContain('Stringing, heavy');
  await page.keyboard.press('ArrowRight');
  await expect.poll(focused).toContain('Not:');
  await page.keyboard.press('Enter');
  await status.getByText(`${understood - 1} understood, ${toConfirm + 1} to confirm`).waitFor();
  await expect
    .poll(() => page.evaluate(() => (document.activeElement?.closest('[role=toolbar]') ?? null) !== null))
    .toBe(true);

  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await page.getByRole('heading', { name: 'Do you see any of these right now?' }).waitFor();
  expect(complaints).toEqual([]);
  await station.stop();
});
