import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { sharedStation } from './shared-station.ts';

const opened = sharedStation();

const rowsOf = (page: Page) => page.locator('tbody tr:visible');

it('a print of the casebook holds all its cases, and the page comes back afterwards', async () => {
  const { station, page, complaints } = await opened();
  const demo = await station.call('demo:load', {});
  expect(demo.ok).toBe(true);
  const list = await station.call('case:list', { limit: 1 });
  const total = list.ok ? list.value.total : 0;
  expect(total).toBeGreaterThan(50);
  await page.addInitScript(() => (window.print = () => document.body.setAttribute('data-printing', '')));
  await page.goto(`${station.address}#/casebook`);
  await rowsOf(page).first().waitFor();
  await page.getByRole('button', { name: 'Print', exact: true }).click();
  await page.locator('body[data-printing]').waitFor();
  await expect.poll(() => rowsOf(page).count()).toBe(50);
  await page.emulateMedia({ media: 'print' });
  await expect.poll(() => rowsOf(page).count()).toBe(total);
  await expect.poll(() => page.getByText(/^\d+ cases$/).innerText()).toBe(`${total} cases`);
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await page.emulateMedia({ media: 'screen' });
  await expect.poll(() => rowsOf(page).count()).toBe(50);
  await expect.poll(() => page.locator('tbody tr').count()).toBe(50);
  expect(complaints).toEqual([]);
}, 120_000);

it('prices are still there after counting in money was unticked, saved and ticked again', async () => {
  const { station, page, complaints } = await opened();
  const costs = { currency: 'Taler', workPerHour: 30, standstillPerHour: 6 };
  await station.call('shop:save-costs', { costs, revision: 0 });
  await page.goto(`${station.address}#/shop`);
  await page.getByLabel('Count in money').uncheck();
  await page.getByText('The figures are kept').waitFor();
  await page.getByRole('button', { name: 'Save the costs' }).click();
  await page.getByText('Saved.').waitFor();
  await page.reload();
  const tick = page.getByLabel('Count in money');
  await expect.poll(() => tick.isChecked()).toBe(false);
  await tick.check();
  await expect.poll(() => page.getByLabel('Money is called').inputValue()).toBe('Taler');
  await expect.poll(() => page.getByLabel('An hour of work').inputValue()).toBe('30');
  expect(complaints).toEqual([]);
}, 60_000);

it('labels keep figures and units on one line, and the list of backups tells two of one minute apart', async () => {
  const { station, page, complaints } = await opened();
  await station.call('shop:save-spool', {
    label: 'T-1',
    polymer: 'abs',
    filler: 'carbon-fibre',
    fillerPercent: 15,
  });
  await page.goto(`${station.address}#/labels`);
  const label = page.locator('li').filter({ has: page.getByRole('heading', { name: 'T-1' }) });
  const words = await label.innerText();
  expect(words).toMatch(/15\u00a0%, 1\.75\u00a0mm/);
  // What this spool bears, as its page and the remedy have it, not what the polymer alone would.
  expect(words).toMatch(/Dry at 70\u00a0°C .* for \d+ to \d+\u00a0h/);

  await station.call('backup:make', {});
  await pause(1100);
  await station.call('backup:make', {});
  await page.goto(`${station.address}#/settings`);
  const times = page.getByRole('table', { name: /^Backups/ }).locator('tbody td:first-child');
  await times.nth(1).waitFor();
  const [newest, older] = await times.allInnerTexts();
  expect(newest).toMatch(/, \d\d:\d\d:\d\d$/);
  expect(older).not.toBe(newest);
  expect(complaints).toEqual([]);
}, 60_000);
