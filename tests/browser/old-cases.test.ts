import { expect, it } from 'vitest';
import { go } from './go.ts';
import { sharedStation } from './shared-station.ts';

const open = sharedStation();

const CSV = [
  'Date,Machine,Problem,Root cause,Minutes',
  '5/1/2026,Heron,Stringing,Wet filament,45',
  '6/1/2026,Heron,Spaghetti everywhere,Gremlins,30',
  '7/1/2026,Nobody,Stringing,Wet filament,30',
].join('\n');

it('a spreadsheet is tried, its words are explained, it comes in, and is taken back as a whole', async () => {
  const { station, page, complaints } = await open();
  await station.call('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 100 });
  await go(page, `${station.address}#/casebook`);
  await page.getByRole('button', { name: 'Export or import' }).click();
  await page.getByRole('link', { name: 'Import a spreadsheet' }).click();
  await page
    .getByLabel('CSV file')
    .setInputFiles({ name: 'old.csv', mimeType: 'text/csv', buffer: Buffer.from(CSV) });
  await page.getByRole('heading', { name: 'Which column is what' }).waitFor();
  await expect.poll(() => page.getByLabel('Cause (needed)').inputValue()).toBe('Root cause');
  await page.getByRole('button', { name: 'Try it' }).click();
  await page.getByText('1 case would come in, 2 rows do not.').waitFor();
  await page.getByText('the shop has no printer "Nobody"').waitFor();
  const total = async () => {
    const list = await station.call('case:list', {});
    return list.ok ? list.value.total : -1;
  };
  expect(await total()).toBe(0);
  await page.getByLabel('“Spaghetti everywhere” stands for').selectOption({ label: 'Stringing' });
  await page.getByLabel('“Gremlins” stands for').selectOption('None of the guide: keep it under this name');
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.getByText('2 cases would come in, 1 row does not.').waitFor();
  await page.getByRole('button', { name: 'Import 2 cases' }).dblclick();
  await page.getByText('2 cases came in, 1 row does not.').waitFor();
  expect(await total()).toBe(2);
  // The next file of this kind is read as this one.
  await page.reload();
  await page
    .getByLabel('CSV file')
    .setInputFiles({ name: 'next.csv', mimeType: 'text/csv', buffer: Buffer.from(CSV) });
  await page.getByText('The columns are as you chose them last time.').waitFor();
  await page.getByRole('button', { name: 'Take back old.csv' }).click();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('old.csv is taken back: 2 cases are gone.').waitFor();
  expect(await total()).toBe(0);
  expect(complaints).toEqual([]);
});

it('a trial case goes into the bin and comes back; a person is renamed', async () => {
  const { station, page, complaints } = await open();
  const opened = await station.call('case:open', {
    complaints: [{ observation: 'stringing', value: 'slight' }],
    openedBy: 'JO',
  });
  if (!opened.ok) throw new Error(opened.error.message);
  const { caseId, number } = opened.value;
  await station.call('shop:save-person', { initials: 'JO', role: 'operator' });
  await go(page, `${station.address}#/timeline/${caseId}`);
  await page.getByRole('button', { name: 'Delete this case' }).click();
  await page.getByRole('button', { name: 'Move it to the bin' }).dblclick();
  await page.getByRole('heading', { name: 'Bin' }).waitFor();
  await page.getByRole('button', { name: `Restore case ${number}` }).click();
  await page.getByText(`Case ${number} is back.`).waitFor();

  await go(page, `${station.address}#/shop`);
  await page.getByRole('button', { name: 'Rename or remove JO' }).click();
  await page.getByRole('dialog').getByLabel('Initials').fill('JX');
  await page.getByRole('dialog').getByRole('button', { name: 'Rename' }).click();
  await page.getByRole('button', { name: 'Rename or remove JX' }).waitFor();
  const view = await station.call('case:view', { caseId });
  expect(view.ok && view.value.openedBy).toBe('JX');
  expect(complaints).toEqual([]);
});
