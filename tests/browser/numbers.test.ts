import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { temporaryFolder } from '../temporary-folder.ts';
import { sharedStation } from './shared-station.ts';
import { openMore } from './open-more.ts';

const opened = sharedStation();

it('the flow sheet answers as one types, and says what is wrong with a number', async () => {
  const { station, page, complaints } = await opened();
  await page.goto(`${station.address}#/flow`);
  await page.getByLabel('Line width').fill('0.6');
  await page.getByLabel('Layer height').fill('0,3');
  await page.getByLabel(/^Speed/).fill('100');
  // Rounded bead: open-hardware engineer's note on slicing dimensions, 2014.
  await page.getByText('16.1 mm³/s').first().waitFor();
  await page.getByLabel('Layer height').fill('0.9');
  await page.getByText(/at least as wide|at least the layer height/).waitFor();
  expect(complaints).toEqual([]);
});

it('a temperature log brings findings, figures of both heaters and their plots into a case', async () => {
  const { station, page, complaints } = await opened();
  const file = path.join(temporaryFolder(), 'heaters.log');
  const line = (s: number) =>
    `${s} T:${(215 + 6 * Math.sin(s / 8)).toFixed(1)} /215.0 B:${(60 + Math.sin(s)).toFixed(1)} /60.0`;
  writeFileSync(file, Array.from({ length: 600 }, (_, s) => line(s)).join('\n'));
  await page.goto(`${station.address}#/intake`);
  await page.locator('input[type=file]').setInputFiles(file);
  await page.getByRole('heading', { name: 'heaters.log' }).waitFor();
  await page.getByText('Nozzle temperature wanders:').waitFor();
  await page.getByRole('figure', { name: /^Bed temperature/ }).waitFor();
  await page.getByText('The same as a table').first().click();
  await page.getByRole('columnheader', { name: 'Set value, temperature' }).first().waitFor();
  expect(complaints).toEqual([]);
});

it('a shop that says what things cost sees remedies in its money', async () => {
  const { station, page, complaints } = await opened();
  await page.goto(`${station.address}#/shop`);
  await page.getByLabel('Count in money').check();
  await page.getByRole('button', { name: 'Save the costs' }).click();
  await page.getByText('Say what the money is called').waitFor();
  await page.getByLabel('Money is called').fill('Taler');
  await page.getByLabel('An hour of work').fill('30');
  await page.getByLabel('An hour of a machine standing').fill('6');
  await page.getByRole('button', { name: 'Save the costs' }).click();
  await page.getByText('Saved.').waitFor();
  const view = await station.call('case:open', {
    complaints: [{ observation: 'popping-while-loading', value: 'heavy' }],
  });
  expect(view.ok).toBe(true);
  if (!view.ok) return;
  await page.goto(`${station.address}#/case/${view.value.caseId}`);
  await page.getByRole('button', { name: 'None of these' }).click();
  await openMore(page);
  await page.getByRole('button', { name: /^What to do now/ }).click();
  await page
    .getByText(/\d Taler in all/)
    .first()
    .waitFor();
  expect(complaints).toEqual([]);
});

it('the demo shop tells how far it is, can be stopped, and then leaves nothing behind', async () => {
  const { station, page, complaints } = await opened();
  await page.goto(`${station.address}#/shop`);
  await page.getByRole('button', { name: 'Load the demo shop' }).click();
  await page.getByRole('progressbar').waitFor();
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByText('Stopped; nothing of it was kept.').waitFor();
  const shop = await station.call('shop:read', {});
  expect(shop.ok && shop.value.printers).toEqual([]);
  expect(complaints).toEqual([]);
});
