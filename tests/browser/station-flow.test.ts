import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { complaintToCured, findInCasebook } from './complaint-to-cured.ts';
import { Person } from './human-pace.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';

it('ABS at 0.8 mm with popping, vapour and bubbles goes from complaint to cured, and is in the casebook after a restart', async () => {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const complaints = complaintsOf(page);

  const first = await startStationProcess(file);
  const goTo = (address: string) => async (hash: string) => void (await page.goto(`${address}#/${hash}`));
  await complaintToCured({ page, goTo: goTo(first.address) });
  expect(complaints).toEqual([]);
  // A page that stands there while its station is away asks for it in vain, and the browser says so on its console.
  await page.goto('about:blank');
  await first.killAtOnce();

  const second = await startStationProcess(file);
  onTestFinished(() => second.stop());
  await findInCasebook({ page, goTo: goTo(second.address) });
  expect(complaints).toEqual([]);
});

it('the usual wet ABS case takes at most 12 clicks and 45 s at the pace of a person', async () => {
  const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
  onTestFinished(() => station.stop());
  await station.call('shop:save-printer', {
    label: 'Heron',
    conditions: { 'nozzle-mm': 0.8 },
    printHours: 100,
  });
  await station.call('shop:save-spool', { label: 'A-12', polymer: 'abs', storage: 'open' });
  const page = await (await openBrowser()).newPage({ viewport: { width: 1280, height: 800 } });
  const complaints = complaintsOf(page);
  await page.goto(`${station.address}#/bench`);
  const person = new Person(page);
  const button = (name: string | RegExp) => page.getByRole('button', { name }).first();

  await person.tap(page.getByRole('link', { name: 'Something is wrong with Heron' }));
  await person.tap(page.getByLabel('Start in your own words'));
  await person.type('spits when loading, vapour, bubbles, A-12');
  await person.press('Enter');
  await page.getByText('4 understood').waitFor();
  await person.tap(page.getByRole('button', { name: 'Start', exact: true }));
  await person.tap(button('None of these'));
  await page.getByRole('heading', { name: 'Likely causes' }).waitFor();
  if (!(await button(/^Show how/).isVisible())) {
    await person.tap(page.getByText('More', { exact: true }));
    await person.tap(button(/^What to do now/));
  }
  await person.tap(button(/^Show how/));
  await person.tap(button('Done, verify'));
  await person.tap(button('All gone'));
  await person.tap(button(/^Cured/));
  expect(await page.getByRole('checkbox', { name: 'Wet filament' }).isChecked()).toBe(true);
  await person.tap(button('None lost'));
  await person.tap(button('None scrapped'));
  await person.tap(button('Close the case'));
  await page.getByRole('link', { name: 'How it went, step by step' }).waitFor();

  expect(person.clicks).toBeLessThanOrEqual(12);
  expect(person.seconds).toBeLessThanOrEqual(45);
  expect(complaints).toEqual([]);
});
