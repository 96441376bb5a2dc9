import { expect, it } from 'vitest';
import { go } from './go.ts';
import { sharedStation } from './shared-station.ts';

const open = sharedStation();

it('a lead finds out what costs most, what is real, whether a change helped and what is due, and prints it for Monday', async () => {
  const { station, page, complaints } = await open();
  const loaded = await station.call('demo:load', {});
  if (!loaded.ok) throw new Error(loaded.error.message);
  await go(page, `${station.address}#/bench`);
  // What is due is counted on every screen.
  await page.getByRole('link', { name: /Lead\s*1 handed over or due/ }).click();
  // The inbox says first what nobody acts on yet.
  await page.getByRole('link', { name: /^Inbox/ }).click();
  const alerts = page.getByRole('region', { name: 'Stands out, and nobody acts on it yet' });
  await alerts.getByText(/^Any fault on Magpie: \d+ cases, /).waitFor();
  await alerts.getByRole('link', { name: /^See what comes back/ }).click();

  // Which printer costs us most?
  const costs = page.getByRole('region', { name: 'What costs most' });
  await costs.getByText(/^Heron: \d+ h$/).waitFor();
  // What is real, what is noise?
  const standing = page.getByRole('region', { name: 'What stands out' });
  await standing.getByText(/^Wet filament on Heron: \d+ cases, /).waitFor();
  await standing.getByText(/Of these \d+, expect at most one to be chance\./).waitFor();
  const wet = page.getByRole('row', { name: /Heron Wet filament/ });
  await wet.getByText('stands out').waitFor();
  await page.getByText('could be chance', { exact: true }).first().waitFor();
  // Did the new dryer help?
  const better = page.getByRole('region', { name: 'What got better' });
  await better.getByText(/^Wet filament on Heron: .*(as often as before|none since)/).waitFor();
  const actions = page.getByRole('region', { name: 'Actions' });
  await actions.getByText(/^It helped: /).waitFor();
  await actions.getByText(/^Cannot be told yet\. /).waitFor();
  // The chart's data for those who do not see it.
  const months = page.getByRole('region', { name: 'Cases by month' });
  await months.getByText('The same as a table').click();
  await expect.poll(() => months.getByRole('row').count()).toBeGreaterThan(12);
  // Another grouping says what it rests on.
  await page.getByLabel('Hold against each other').selectOption({ label: 'By material' });
  await page.getByText('Nobody logs print hours by material').waitFor();
  await page.getByLabel('Hold against each other').selectOption({ label: 'By printer' });

  // What do we change next? A finding becomes an action, once, however often it is pressed.
  await page.getByRole('button', { name: 'Act on it: Any fault, Magpie' }).click();
  const sheet = page.getByRole('dialog');
  await sheet.getByRole('button', { name: 'Make it an action' }).click();
  await sheet.getByText('Say in a few words what is to be done.').waitFor();
  await sheet.getByLabel('What is to be done').fill('Somebody stays for the first layer');
  await sheet.getByLabel('Who (initials)').fill('EL');
  await sheet.getByLabel('By when').fill('2099-12-03');
  await sheet.getByRole('button', { name: 'Make it an action' }).dblclick();
  await sheet.waitFor({ state: 'hidden' });
  await actions.getByRole('heading', { name: 'Somebody stays for the first layer' }).waitFor();
  const list = await station.call('action:list', {});
  expect(list.ok && list.value.actions.filter(({ owner }) => owner === 'EL').length).toBe(2);
  // What is due this week is done with two presses.
  const belts = actions.getByRole('listitem').filter({ hasText: 'Replace both belts' });
  await belts.getByText(/^Due .*, this week$/).waitFor();
  await belts.getByRole('button', { name: 'Done' }).click();
  await belts.getByRole('button', { name: 'Save' }).click();
  await belts.getByText(/^Done \d/).waitFor();

  // Monday's meeting is one page of paper, A4 and Letter.
  await page.getByRole('link', { name: 'Monday’s meeting' }).click();
  await page.getByRole('heading', { name: 'Monday’s meeting' }).waitFor();
  await page
    .getByRole('region', { name: 'Actions still to be done' })
    .getByText(/^Overdue since/)
    .waitFor();
  await page.getByRole('row', { name: /Wet filament on Heron.*it helped/ }).waitFor();
  for (const format of ['A4', 'Letter'] as const) {
    const paper = (await page.pdf({ format })).toString('latin1');
    expect(paper.match(/\/Type\s*\/Page\b/g)?.length, format).toBe(1);
  }
  expect(complaints).toEqual([]);
});

it('what comes back fits a telephone', async () => {
  const { station, page } = await open({ width: 390, height: 844 });
  for (const address of ['recurrence', 'meeting']) {
    await go(page, `${station.address}#/${address}`);
    await page.getByRole('region', { name: 'What stands out', exact: true }).waitFor();
    await expect
      .poll(() => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth))
      .toBe(0);
  }
});
