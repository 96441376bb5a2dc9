import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';

it('a printer\u2019s code opens its open case or else its page, and the intake takes it', async () => {
  const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
  onTestFinished(() => station.stop());
  for (const label of ['Heron', 'Wren'])
    await station.call('shop:save-printer', { label, conditions: { 'nozzle-mm': 0.8 }, printHours: 10 });
  const shop = await station.call('shop:read', {});
  if (!shop.ok) throw new Error(shop.error.message);
  const idOf = (label: string) => shop.value.printers.find((one) => one.label === label)?.id ?? '';
  const opened = await station.call('case:open', {
    printerId: idOf('Heron'),
    complaints: [{ observation: 'stringing', value: 'slight' }],
  });
  if (!opened.ok) throw new Error(opened.error.message);
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  const complaints = complaintsOf(page);

  await page.goto(`${station.address}#/printer-codes`);
  await page.getByRole('heading', { name: 'Wren' }).waitFor();
  const drawn = page
    .getByRole('listitem')
    .locator('svg')
    .filter({ has: page.locator('rect') });
  await expect.poll(() => drawn.count()).toBe(2);

  await page.goto(`${station.address}#/printer/${idOf('Heron')}`);
  await page.getByRole('heading', { name: /^Case 1/ }).waitFor();
  expect(page.url()).toContain(opened.value.caseId);

  await page.goto(`${station.address}#/printer/${idOf('Wren')}`);
  await page.getByText('Running').waitFor();
  await page.getByRole('link', { name: 'Something is wrong', exact: true }).click();
  const isChosen = () => page.getByRole('radio', { name: 'Wren' }).isChecked();
  await page.getByRole('heading', { name: 'What is wrong?' }).waitFor();
  expect(await isChosen()).toBe(true);

  const scan = page.getByLabel('Scan the code of the printer or the spool');
  await scan.fill(`BEADWRIGHT:PRINTER:${idOf('Heron')}`);
  await page.getByText('Heron: taken.').waitFor();
  await expect.poll(() => page.getByRole('radio', { name: 'Heron' }).isChecked()).toBe(true);
  await scan.fill(`http://127.0.0.1:9/#/printer/${'0'.repeat(26)}`);
  await page.getByText('Nothing in use here has this code.').waitFor();
  expect(complaints).toEqual([]);
});
