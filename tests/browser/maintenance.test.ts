import { expect, it } from 'vitest';
import { go } from './go.ts';
import { sharedStation } from './shared-station.ts';

const open = sharedStation();

it('what is due is ticked off at the bench with one tap, with the part, and taken back at the printer', async () => {
  const { station, page, complaints } = await open();
  const loaded = await station.call('demo:load', {});
  if (!loaded.ok) throw new Error(loaded.error.message);
  const rook = loaded.value.printers.find(({ label }) => label === 'Rook')?.id ?? '';
  await go(page, `${station.address}#/bench`);
  const due = page.getByRole('region', { name: 'Maintenance due' });
  const rails = due.getByRole('listitem').filter({ hasText: 'Grease or oil rails' });
  await rails.getByText(/^How, in about/).click();
  // The caution stands before the step that it belongs to.
  const texts = await rails.getByRole('listitem').first().innerText();
  expect(texts.indexOf('Caution: Gantry or bed may fall')).toBeGreaterThanOrEqual(0);
  expect(texts.indexOf('Caution: Gantry or bed may fall')).toBeLessThan(texts.indexOf('1. Switch off'));
  await rails.getByRole('button', { name: 'Done' }).dblclick();
  await due.getByText('Done: Grease or oil rails, rods and screws, Heron.').waitFor();
  await due.getByRole('button', { name: 'Undo' }).click();
  await due.getByRole('listitem').filter({ hasText: 'Grease or oil rails' }).waitFor();

  await go(page, `${station.address}#/printer/${rook}`);
  const own = page.getByRole('region', { name: 'Maintenance' });
  await own.getByText(/^Later: \d+ tasks$/).click();
  await own.getByRole('button', { name: 'Done Replace the nozzle' }).click();
  await own.getByLabel('Nozzle fitted').fill('0.6 hardened');
  await own.getByLabel('Print hours on the meter, h').fill('4,1');
  await own.getByRole('button', { name: 'Add this' }).click();
  // A meter that ran back is a slip: nothing is kept, and what was typed stays.
  await own.getByText(/the meter stood at 4,\d+ h before that/).waitFor();
  await own.getByLabel('Print hours on the meter, h').fill('');
  await own.getByRole('button', { name: 'Add this' }).click();
  await own.getByText(/Last done .* \(0\.6 hardened\)/).waitFor();
  await own.getByText('Hours since the nozzle was last changed').waitFor();
  await own
    .getByRole('button', { name: /^Take back Replace the nozzle/ })
    .first()
    .click();
  await own.getByText('Replace the nozzle, taken back').waitFor();

  // The lead sets another interval for one model.
  await go(page, `${station.address}#/maintenance`);
  await page.getByLabel('Model of printer').selectOption('Large enclosed');
  await page.getByRole('button', { name: 'Change Check the belts' }).click();
  const sheet = page.getByRole('dialog');
  await sheet.getByLabel('Print hours', { exact: true }).fill('50');
  await sheet.getByRole('button', { name: 'Save' }).click();
  await sheet.waitFor({ state: 'hidden' });
  await page
    .getByRole('row', { name: /Check the belts.*Every 50 print hours.*Set for this model/ })
    .waitFor();
  await page
    .getByRole('region', { name: 'Due now or within a week' })
    .getByText(/^\d+ of 50 print hours/)
    .first()
    .waitFor();
  expect(complaints).toEqual([]);
});
