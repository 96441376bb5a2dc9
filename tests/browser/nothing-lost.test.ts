import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { sharedStation } from './shared-station.ts';
import { openMore } from './open-more.ts';

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
});

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
});

it('what was pressed is kept though the page is left in the same moment', async () => {
  const { station, page, complaints } = await opened();
  const view = await station.call('case:open', {
    complaints: [{ observation: 'stringing', value: 'slight' }],
  });
  const caseId = view.ok ? view.value.caseId : '';
  await station.call('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
  await page.goto(`${station.address}#/case/${caseId}`);
  await openMore(page);
  await page.getByRole('button', { name: 'Add a note' }).click();
  await page.getByLabel('Note').fill('the spool stood open over night');
  // A browser has six connections for one station (HTTP/1.1): with all of them taken, what is sent waits in the browser.
  const taken = await page.evaluate(async () => {
    const streams = Array.from({ length: 8 }, () => new EventSource('/changes'));
    const opened = streams.map((one) => new Promise((resolve) => one.addEventListener('hello', resolve)));
    return (await Promise.all(opened.slice(0, 5))).length;
  });
  expect(taken).toBe(5);
  await page.getByRole('button', { name: 'Keep the note' }).click();
  await page.goto('about:blank');
  const said = async () => {
    const log = await station.call('case:timeline', { caseId });
    return log.ok && log.value.steps.map(({ kind }) => kind);
  };
  await expect.poll(said).toEqual(['opened', 'danger-answered', 'noted']);
  expect(complaints).toEqual([]);
});

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
  await expect.poll(() => label.innerText()).toMatch(/15\u00a0%, 1\.75\u00a0mm/);
  // What this spool bears, as its page and the remedy have it, not what the polymer alone would.
  await expect.poll(() => label.innerText()).toMatch(/Dry at 70\u00a0°C .* for \d+ to \d+\u00a0h/);

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
});
