import { expect, it } from 'vitest';
import { sharedStation } from './shared-station.ts';

const open = sharedStation();

it('a view of the casebook is kept under a name, found again by everybody, and removed', async () => {
  const { station, page, complaints } = await open();
  await station.call('case:open', { complaints: [{ observation: 'stringing', value: 'slight' }] });
  await page.goto(`${station.address}#/casebook`);
  await page.getByText('1 case').first().waitFor();
  await page.getByLabel('Search').fill('warping');
  await page.getByText('No case fits').waitFor();
  await page.getByRole('button', { name: 'Keep this view' }).click();
  await page.getByLabel('Name of this view').fill('All warping');
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
  await page.getByRole('link', { name: 'All warping' }).waitFor();
  // Another screen, from the beginning.
  await page.goto(`${station.address}#/bench`);
  await page.reload();
  await page.goto(`${station.address}#/casebook`);
  await page.getByRole('link', { name: 'All warping' }).click();
  await page.getByText('No case fits').waitFor();
  await expect.poll(() => page.getByLabel('Search').inputValue()).toBe('warping');
  await page.getByRole('button', { name: 'Tidy up' }).click();
  await page.getByRole('button', { name: 'Remove All warping' }).click();
  await page.getByRole('link', { name: 'All warping' }).waitFor({ state: 'detached' });
  expect(complaints).toEqual([]);
});

it('a tag is put on a case, followed to the casebook, and renamed for all cases', async () => {
  const { station, page, complaints } = await open();
  // Going back from the closed sheet always comes before the browser has followed the link that closed it: on a busy machine
  // it did now and then.
  await page.addInitScript(() => {
    const later = window.setTimeout;
    window.setTimeout = ((work: () => void, ms?: number) =>
      ms ? later(work, ms) : (queueMicrotask(work), 0)) as typeof window.setTimeout;
  });
  const opened = await station.call('case:open', {
    complaints: [{ observation: 'stringing', value: 'slight' }],
  });
  const caseId = opened.ok ? opened.value.caseId : '';
  await page.goto(`${station.address}#/timeline/${caseId}`);
  await page.getByRole('button', { name: 'Add a tag' }).click();
  await page.getByLabel('Tag').fill('trail 3');
  await page.getByRole('button', { name: 'Put on' }).click();
  await page.getByRole('link', { name: 'trail 3' }).click();
  await page.getByText('1 case that fit').waitFor();
  await page.getByRole('button', { name: 'Tags' }).click();
  await page.getByRole('button', { name: 'Rename “trail 3”' }).click();
  await page.getByLabel('New name of “trail 3”').fill('trial 3');
  await page.getByRole('button', { name: 'Rename', exact: true }).click();
  await page.getByText('1 case changed.').waitFor();
  await page.getByRole('link', { name: 'trial 3' }).click();
  await page.getByText('1 case that fit').waitFor();
  await page.goto(`${station.address}#/case/${caseId}`);
  await page.getByRole('link', { name: 'trial 3' }).waitFor();
  expect(complaints).toEqual([]);
});
