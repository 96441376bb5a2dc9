import { inEnglish } from '../../src-core/words/in-english.ts';
import { expect, it } from 'vitest';
import { go } from './go.ts';
import { sharedStation } from './shared-station.ts';
import { openMore } from './open-more.ts';

const open = sharedStation();
const opened = () => open({ width: 390, height: 844 });

it('what is known besides is said with any complaint in a tap each, at intake and while checking', async () => {
  const { station, page, complaints } = await opened();
  await go(page, `${station.address}#/intake`);
  await page.getByLabel('Search what is wrong').fill('stringing');
  await page.getByRole('checkbox', { name: 'Stringing', exact: true }).check();

  // One tap says yes, the chip above says it more exactly, and one tap takes it off.
  const before = page.getByRole('group', { name: 'It began after' });
  const more = before.getByRole('button', { name: /more/ });
  await more.click();
  await before.getByRole('button', { name: 'Began with a new spool' }).click();
  await page.getByLabel('Began with a new spool: is it so?').selectOption('Probably');
  const course = page.getByRole('group', { name: 'How it goes' });
  await course.getByRole('button', { name: /more/ }).click();
  await course.getByRole('button', { name: 'Came suddenly' }).click();
  await page.getByRole('button', { name: 'Take off Came suddenly' }).click();
  const suddenly = course.getByRole('button', { name: 'Came suddenly' });
  await suddenly.and(page.locator('[aria-pressed="false"]')).waitFor();
  // What was found on opening up stands behind a search.
  await page.getByLabel('Search what was found').fill('jam nozzle');
  await page.getByRole('button', { name: 'Blockage sits in the nozzle' }).click();
  // How bad it is was asked and left open.
  await page.getByRole('group', { name: 'How bad is it: Stringing' }).waitFor();
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await page.getByRole('button', { name: 'None of these' }).click();

  await page.getByRole('heading', { name: 'Likely causes' }).waitFor();
  await openMore(page);
  await page.getByRole('button', { name: /^What else do you know/ }).click();
  const sheet = page.getByRole('dialog', { name: 'What else do you know?' });
  const place = sheet.getByRole('group', { name: 'Where it shows' });
  await place.getByRole('button', { name: /more/ }).click();
  await place.getByRole('button', { name: 'Only on outer walls' }).click();
  await sheet.getByLabel('Only on outer walls: is it so?').selectOption('No');
  await sheet.getByRole('button', { name: 'Add to the case (1)' }).click();
  await sheet.waitFor({ state: 'detached' });
  await page.getByRole('listitem').filter({ hasText: 'Only on outer walls' }).waitFor();
  expect(complaints).toEqual([]);

  const caseId = new URL(page.url()).hash.split('/').at(-1) ?? '';
  const view = await station.call('case:view', { caseId });
  const trail = view.ok ? view.value.trail.map((one) => inEnglish(one.text)).join('\n') : '';
  expect(trail).toMatch(/Stringing/);
  expect(view.ok && view.value.complaints.map((one) => one.observation)).toEqual(['stringing']);
});

it('a danger sign answers at once at intake: the stop stands at the top before anything is started', async () => {
  const { station, page, complaints } = await opened();
  await go(page, `${station.address}#/intake`);
  await page.getByLabel('Search what is wrong').fill('smoke');
  await page.getByRole('checkbox', { name: /^Smoke or burnt smell/ }).check();
  const stop = page.getByRole('alert').filter({ hasText: 'Stop. Power off first.' });
  await stop.waitFor();
  await page.getByRole('heading', { name: 'Stop. Power off first.' }).waitFor();
  await expect.poll(async () => (await stop.boundingBox())?.y).toBeLessThan(844 / 2);
  expect(await stop.boundingBox()).toMatchObject({ x: 0, width: 390 });
  await stop.getByRole('button', { name: 'It is off: open the case' }).click();
  await page.getByRole('button', { name: 'It is off and safe' }).waitFor();
  expect(complaints).toEqual([]);
});
