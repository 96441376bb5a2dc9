import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';
import { openMore } from './open-more.ts';

it('a case is handed to somebody, with what it waits for and by when; the inbox shows it, and its badge on every screen', async () => {
  const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
  onTestFinished(() => station.stop());
  await station.call('shop:save-person', { initials: 'QE', role: 'lead' });
  const opened = await station.call('case:open', {
    complaints: [{ observation: 'stringing', value: 'slight' }],
  });
  if (!opened.ok) throw new Error(opened.error.message);
  const { caseId } = opened.value;
  await station.call('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const complaints = complaintsOf(page);
  await page.goto(`${station.address}#/case/${caseId}`);
  await page.locator('.checking').waitFor();
  // Beside the one thing that is asked or to be done nothing stands but "More" and the way out when there is danger.
  for (const other of [/^What to do now/, 'Add a note', 'Park it', 'Hand it over', /^Print$/])
    expect(
      await page.locator('main').getByRole('button', { name: other }).filter({ visible: true }).count(),
    ).toBe(0);
  await page.getByRole('button', { name: 'Danger sign seen' }).waitFor();
  await openMore(page);
  await page.getByRole('button', { name: 'Hand it over' }).click();
  await page.getByLabel('To whom').fill('Q1');
  const send = page.locator('form').getByRole('button', { name: 'Hand it over' });
  await send.click();
  await page.getByText('Initials are one to four letters.').waitFor();
  await page.getByLabel('To whom').fill('QE');
  await page.getByLabel('What they should know').fill('Strings on every travel');
  await page.getByLabel('Waits for a part').fill('0.6 mm nozzle');
  await page.getByLabel('Look again by').fill('2099-12-03');
  await send.click();
  await page.getByRole('heading', { name: 'Handed over' }).waitFor();
  await page
    .getByText('Handed to QE until 3 Dec 2099, waits for 0.6 mm nozzle: Strings on every travel')
    .first()
    .waitFor();

  await page.goto(`${station.address}#/guide`);
  await page.getByRole('link', { name: /Lead\s*1 handed over/ }).click();
  await page.getByRole('link', { name: /^Inbox/ }).click();
  const waiting = page.getByRole('region', { name: 'Waiting for a part' });
  await waiting.getByText('Waits for 0.6 mm nozzle').waitFor();
  await waiting.getByText('QE', { exact: true }).waitFor();
  await waiting.getByText('By 3 Dec').waitFor();
  await waiting.getByRole('link').click();
  await page.getByRole('button', { name: 'Reopen' }).click();
  await page.getByRole('link', { name: 'Bench', exact: true }).click();
  await page.getByRole('heading', { name: 'Bench' }).waitFor();
  await page.getByText('handed over').first().waitFor({ state: 'hidden' });
  expect(complaints).toEqual([]);
});
