import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { freePort } from '../../src-main/station/free-port.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { go } from './go.ts';
import { complaintToCured } from './complaint-to-cured.ts';
import { codeFor, join, openStation, trusting } from './join-devices.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';

/** Turns to another screen within the page, so that its connection stays. */
async function turnTo(page: Page, screen: string): Promise<void> {
  await page.evaluate((hash) => (location.hash = hash), `#/${screen}`);
}

/** A trainer at the station asks, two devices vote, and all see how it came out. */
async function voteInAGroup(trainer: Page, one: Page, other: Page): Promise<void> {
  await turnTo(trainer, 'session');
  await trainer.getByLabel('Case').selectOption({ label: 'Ghosts beside every corner (easy)' });
  await trainer.getByRole('button', { name: 'Put it on the wall' }).click();
  await trainer.getByRole('button', { name: 'What is behind it' }).click();
  await trainer.getByRole('button', { name: 'Let the devices vote' }).click();
  for (const page of [one, other]) {
    // One tap from wherever one is.
    await page.getByRole('link', { name: 'Vote now' }).click();
    await page.getByRole('heading', { level: 1, name: 'What is behind it?' }).waitFor();
    await page.getByRole('button', { name: 'Belt is loose' }).click();
  }
  const changed = other.getByRole('button', { name: 'Belt is worn or stretched' });
  await changed.click();
  await changed.and(other.locator('[aria-pressed="true"]')).waitFor();
  await trainer.getByText('2 votes are in').waitFor();
  await one.getByText('2 votes are in').waitFor();
  await trainer.getByRole('button', { name: 'Reveal the votes' }).click();
  await one.getByRole('heading', { level: 1, name: 'How the room voted' }).waitFor();
  await other.getByText('2 votes in all, hands among them.').waitFor();
  await trainer.getByRole('button', { name: 'End this case' }).click();
  await one.getByText('Nothing is asked just now.').waitFor();
}

it('three tablets join by code; one works a case while the lead watches, and all go on after the station was killed', async () => {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const own = await freePort(10_000 + (process.pid % 10_000));
  const port = await freePort(20_000 + (process.pid % 10_000));
  const rootPage = await freePort(30_000 + (process.pid % 10_000));
  const door = `https://127.0.0.1:${port}`;
  // By HTTPS, with a certificate of the station's own.
  const overHttps = { BEADWRIGHT_PLAIN_HTTP: '', BEADWRIGHT_ROOT_PAGE: String(rootPage) };
  const first = await openStation(file, own, port, overHttps);
  await expect.poll(first.output).toContain(`Devices of the network find it at ${door}`);
  await expect.poll(first.output).toContain(`root certificate once, from http://127.0.0.1:${rootPage}/`);
  const shop = await first.call('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 1 });
  const heron = shop.ok ? (shop.value.printers[0]?.id ?? '') : '';
  const people = await first.call('shop:save-person', { initials: 'RK', role: 'lead' });
  expect(people.ok).toBe(true);

  const browser = await openBrowser([await trusting(port)]);
  const lead = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
  const complaints = complaintsOf(lead);
  await go(lead, `${first.address}#/shop`);
  await lead.getByRole('link', { name: 'Devices and PINs' }).click();
  const atHeron = { label: 'Tablet at Heron', role: 'Operator', opensWith: 'Heron' };
  const tablet = await join(browser, door, await codeFor(lead, atHeron), false);
  await lead.getByText(`http://127.0.0.1:${rootPage}/`).waitFor();
  // It opens with its printer's page, and its code is used up: the lead sees the device in its place.
  await tablet.getByRole('heading', { level: 1, name: 'Heron' }).waitFor();
  const inside = lead.getByRole('region', { name: 'Devices that are let in' });
  await inside.getByText('Tablet at Heron', { exact: true }).waitFor();
  const phoneOf = { label: 'Phone', role: 'Operator', opensWith: 'The bench' };
  const phone = await join(browser, door, await codeFor(lead, phoneOf), true);
  const wallOf = { label: 'Screen on the wall', role: 'Trainer', opensWith: 'The bench' };
  const wall = await join(browser, door, await codeFor(lead, wallOf), false);
  await wall.getByRole('heading', { level: 1, name: 'Bench' }).waitFor();

  // An operator works at Heron; the wall goes along.
  complaints.push(...complaintsOf(tablet), ...complaintsOf(wall));
  await go(tablet, `${door}/#/printer/${heron}`);
  const caseAddress = complaintToCured({
    page: tablet,
    goTo: async (hash) => void (await go(tablet, `${door}/#/${hash}`)),
  });
  await wall.getByText('Popping or spitting while loading').first().waitFor();
  await caseAddress;
  await wall.getByText('No open cases').waitFor();

  // What an operator may not, a PIN opens; it is written down who did it.
  await lead.getByRole('button', { name: /^Give a PIN/ }).click();
  await lead.getByLabel('New PIN of RK').fill('4711');
  await lead.getByRole('button', { name: 'Keep it' }).click();
  await lead.getByText('RK can sign in with the new PIN.').waitFor();
  await go(phone, `${door}/#/shop`);
  await phone.getByLabel('Initials', { exact: true }).fill('KB');
  await phone.getByRole('button', { name: 'Add', exact: true }).click();
  await phone.getByText('This is for the lead. Sign in on this device with your PIN.').waitFor();
  await phone.getByRole('button', { name: 'Sign in', exact: true }).click();
  const sheet = phone.getByRole('dialog', { name: 'Sign in' });
  await sheet.getByRole('radio', { name: 'RK' }).check();
  await sheet.getByLabel('PIN').fill('4712');
  await sheet.getByRole('button', { name: 'Sign in' }).click();
  await sheet.getByText('That is not the PIN.').waitFor();
  await sheet.getByLabel('PIN').fill('4711');
  await sheet.getByRole('button', { name: 'Sign in' }).click();
  await phone.getByRole('button', { name: 'Signed in: RK' }).waitFor();
  await expect.poll(() => phone.getByLabel('Initials', { exact: true }).inputValue()).toBe('KB');
  await phone.getByRole('button', { name: 'Add', exact: true }).click();
  await phone.getByRole('button', { name: 'Rename or remove KB' }).waitFor();
  await lead.getByText('Phone (RK)').first().waitFor();
  expect(complaints).toEqual([]);
  await voteInAGroup(lead, tablet, phone);
  await turnTo(lead, 'devices');
  await inside.getByText('Tablet at Heron', { exact: true }).waitFor();

  // Killed and started: every page goes on, and nothing is lost.
  await first.killAtOnce();
  const lost = (page: Page) => page.getByText('No connection to the station. What you typed is kept.');
  await Promise.all([tablet, wall, lead].map((page) => lost(page).waitFor()));
  await tablet.goto(`${door}/#/bench`);
  // Reloaded meanwhile, a tablet still has its page, says what is the matter, and goes on by itself.
  await tablet.reload();
  await tablet.getByText(/Beadwright does not answer/).waitFor();
  const second = await openStation(file, own, port, overHttps);
  await Promise.all([wall, lead].map((page) => lost(page).waitFor({ state: 'detached' })));
  await tablet.getByRole('heading', { level: 1, name: 'Bench' }).waitFor();
  const cases = await second.call('case:list', {});
  expect(cases.ok && cases.value.rows.map(({ state, causeLabel }) => [state, causeLabel])).toEqual([
    ['closed', 'Wet filament'],
  ]);

  // Shut out: at once, and in plain words.
  const row = inside.getByRole('listitem').filter({ hasText: 'Screen on the wall' });
  await row.getByRole('button', { name: /^Shut out/ }).click();
  await lead.getByRole('button', { name: 'Shut it out' }).click();
  await wall.getByText('The station lets this device in no more.').waitFor();
  await wall.reload();
  await wall.getByText('This browser has not been let in yet.').waitFor();
  // It keeps no page of its own that would look as if it were let in.
  await expect.poll(() => wall.evaluate(() => caches.keys())).toEqual([]);
  await tablet.reload();
  await tablet.getByRole('navigation', { name: 'Places' }).waitFor();
});
