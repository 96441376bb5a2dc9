import { expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { go, standsStill } from './go.ts';
import { sharedStation } from './shared-station.ts';

const opened = sharedStation();

it('Back closes the sheet on top and leaves the screen as it was; a sheet closed by hand leaves no trace', async () => {
  const { station, page, complaints } = await opened();
  await go(page, `${station.address}#/bench`);
  await page.getByRole('heading', { name: 'Bench' }).waitFor();
  await page.getByRole('link', { name: 'Lead' }).click();
  await page.getByRole('heading', { name: 'Casebook' }).waitFor();
  const keys = page.getByRole('dialog', { name: 'Keys' });

  await page.keyboard.press('?');
  await keys.waitFor();
  await page.goBack();
  await keys.waitFor({ state: 'detached' });
  expect(new URL(page.url()).hash).toBe('#/casebook');

  await page.keyboard.press('?');
  await keys.getByRole('button', { name: 'Close' }).click();
  await keys.waitFor({ state: 'detached' });
  await standsStill(page);
  await page.goBack();
  await page.getByRole('heading', { name: 'Bench' }).waitFor();
  expect(new URL(page.url()).hash).toBe('#/bench');

  // Who closes a sheet and goes on in the same moment stays where they went.
  await page.keyboard.press('?');
  await keys.waitFor();
  await page.evaluate(async () => {
    document.querySelector<HTMLButtonElement>('dialog[open] header button')?.click();
    while (document.querySelector('dialog[open]')) await Promise.resolve();
    window.location.hash = '#/casebook';
  });
  await page.getByRole('heading', { name: 'Casebook' }).waitFor();
  await page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 200)));
  expect(new URL(page.url()).hash).toBe('#/casebook');
  expect(complaints).toEqual([]);
});

it('Back comes to the same place in the casebook', async () => {
  const { station, page, complaints } = await opened({ width: 1280, height: 500 });
  const demo = await station.call('demo:load', {});
  expect(demo.ok).toBe(true);
  await go(page, `${station.address}#/casebook`);
  const row = page.locator('tbody tr').nth(30);
  await row.waitFor();
  await row.scrollIntoViewIfNeeded();
  const link = row.getByRole('link');
  // The pointer scrolls there, too: only then is it the place that is left.
  await link.hover();
  const before = await page.evaluate(() => window.scrollY);
  expect(before).toBeGreaterThan(300);
  await link.click();
  await page.locator('main h1').filter({ hasNotText: 'Casebook' }).waitFor();
  await page.goBack();
  await row.waitFor();
  await page.waitForFunction((wanted) => Math.abs(window.scrollY - wanted) < 5, before);
  expect(complaints).toEqual([]);
});

it('a complaint is found, picked and started with the keyboard in under ten presses besides its words', async () => {
  const { station, page, complaints } = await opened();
  await go(page, `${station.address}#/bench`);
  await page.getByRole('heading', { name: 'Bench' }).waitFor();
  let presses = 0;
  const press = async (key: string) => {
    await page.keyboard.press(key);
    presses++;
  };
  await press('n');
  const words = page.getByLabel('Start in your own words');
  await words.waitFor();
  while (!(await words.evaluate((node) => node === document.activeElement))) await press('Tab');
  await page.keyboard.type('heavy stringing');
  await press('Enter');
  await page.getByRole('button', { name: /^Stringing, heavy/ }).waitFor();
  await press('Control+Enter');
  await page.getByRole('heading', { name: 'Do you see any of these right now?' }).waitFor();
  expect(presses).toBeLessThan(10);
  expect(complaints).toEqual([]);
});

it('what it was last time on this printer and spool stands at intake and beside the verdict', async () => {
  const { station, page, complaints } = await opened({ width: 390, height: 844 });
  const shop = await station.call('shop:save-printer', { label: 'Siskin', conditions: {}, printHours: 0 });
  const printers = shop.ok ? shop.value.printers : [];
  const printerId = printers.find(({ label }) => label === 'Siskin')?.id ?? '';
  const send = async (events: readonly CaseEvent[]) => {
    const view = await station.call('case:open', {
      printerId,
      complaints: [{ observation: 'stringing', value: 'heavy' }],
    });
    const caseId = view.ok ? view.value.caseId : '';
    for (const [index, event] of events.entries())
      expect((await station.call('case:send', { caseId, revision: index + 1, event })).ok).toBe(true);
    return caseId;
  };
  await send([
    { kind: 'danger-answered', present: [] },
    { kind: 'remedy-chosen', remedy: 'dry-the-spool' },
    { kind: 'remedy-done' },
    { kind: 'verified', outcome: 'cured' },
    {
      kind: 'closed',
      causes: [{ cause: 'wet-filament' }],
      practice: null,
      minutesLost: 5,
      gramsScrapped: 0,
      note: '',
    },
  ]);
  await go(page, `${station.address}#/intake/${printerId}`);
  const last = page.getByRole('region', { name: 'Last time here' });
  await last.getByText('Wet filament').waitFor();
  await last.getByText('Cured by: Dry the spool').waitFor();

  const caseId = await send([{ kind: 'danger-answered', present: [] }, { kind: 'verdict-asked' }]);
  await go(page, `${station.address}#/case/${caseId}`);
  await last.getByText('Cured by: Dry the spool').waitFor();
  await expect
    .poll(() => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth))
    .toBe(0);
  expect(complaints).toEqual([]);
});

it('at 200 % on a desk the search field of the intake is free of bars', async () => {
  const { station, page } = await opened({ width: 640, height: 400 });
  await go(page, `${station.address}#/intake`);
  const field = page.getByLabel('Search what is wrong');
  await field.focus();
  await field.scrollIntoViewIfNeeded();
  const isFree = () =>
    field.evaluate((node) => {
      const { left, top, right, bottom } = node.getBoundingClientRect();
      return [
        [left + 4, top + 4],
        [right - 4, bottom - 4],
      ].every(([x = 0, y = 0]) => document.elementFromPoint(x, y) === node);
    });
  await expect.poll(isFree).toBe(true);
});
