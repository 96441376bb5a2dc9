import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { expect, it, onTestFinished } from 'vitest';
import { freePort } from '../../src-main/station/free-port.ts';
import { ended } from '../processes/ended.ts';
import { launchStation, type StationProcess } from '../processes/launch-station.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { complaintToCured } from './complaint-to-cured.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';

/** A station whose door to the network is at this port of the loopback address, over plain HTTP by an explicit word. */
function openStation(file: string, own: number, port: number): Promise<StationProcess> {
  return launchStation(file, (child) => onTestFinished(() => ended(child, 'SIGKILL')), own, undefined, {
    BEADWRIGHT_LISTEN: `127.0.0.1:${port}`,
    BEADWRIGHT_PLAIN_HTTP: '1',
  });
}

/** The lead makes a code at the station and reads it off the screen. */
async function codeFor(
  lead: Page,
  device: { label: string; role: string; opensWith: string },
): Promise<string> {
  const form = lead.getByRole('region', { name: 'Let a device in' });
  await form.getByLabel('Opens with').selectOption({ label: device.opensWith });
  await form.getByLabel('Called').fill(device.label);
  await form.getByLabel('Works as').selectOption({ label: device.role });
  const before = await form.locator('.signs').allInnerTexts();
  await form.getByRole('button', { name: 'Make a code' }).click();
  const signs = form.locator('.signs');
  await signs.waitFor();
  await expect.poll(() => signs.innerText()).not.toBe(before[0]);
  return signs.innerText();
}

/** A new device with a browser of its own, let in by the code. */
async function join(browser: Browser, door: string, code: string, isTyped: boolean): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await context.newPage();
  await page.goto(isTyped ? `${door}/` : `${door}/join?code=${code}`);
  if (isTyped) {
    await page.getByRole('link', { name: 'join with a code' }).click();
    await page.getByLabel('Code for this device').fill(code.toLowerCase().replace('-', ' '));
  }
  await page.getByRole('button', { name: 'Join' }).click();
  await page.getByRole('navigation', { name: 'Places' }).waitFor();
  return page;
}

it('three tablets join by code; one works a case while the lead watches, and all go on after the station was killed', async () => {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const own = await freePort(10_000 + (process.pid % 10_000));
  const port = await freePort(20_000 + (process.pid % 10_000));
  const door = `http://127.0.0.1:${port}`;
  const first = await openStation(file, own, port);
  expect(first.output()).toContain(`Devices of the network find it at ${door}`);
  expect(first.output()).toContain('This is plain HTTP');
  const shop = await first.call('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 1 });
  const heron = shop.ok ? (shop.value.printers[0]?.id ?? '') : '';
  const people = await first.call('shop:save-person', { initials: 'RK', role: 'lead' });
  expect(people.ok).toBe(true);

  const browser = await openBrowser();
  const lead = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
  const complaints = complaintsOf(lead);
  await lead.goto(`${first.address}#/shop`);
  await lead.getByRole('link', { name: 'Devices and PINs' }).click();
  const atHeron = { label: 'Tablet at Heron', role: 'Operator', opensWith: 'Heron' };
  const tablet = await join(browser, door, await codeFor(lead, atHeron), false);
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
  await tablet.goto(`${door}/#/printer/${heron}`);
  const caseAddress = complaintToCured({
    page: tablet,
    goTo: async (hash) => void (await tablet.goto(`${door}/#/${hash}`)),
  });
  await wall.getByText('Popping or spitting while loading').first().waitFor();
  await caseAddress;
  await wall.getByText('No open cases').waitFor();

  // What an operator may not, a PIN opens; it is written down who did it.
  await lead.getByRole('button', { name: /^Give a PIN/ }).click();
  await lead.getByLabel('New PIN of RK').fill('4711');
  await lead.getByRole('button', { name: 'Keep it' }).click();
  await lead.getByText('RK can sign in with the new PIN.').waitFor();
  await phone.goto(`${door}/#/shop`);
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
  expect(await phone.getByLabel('Initials', { exact: true }).inputValue()).toBe('KB');
  await phone.getByRole('button', { name: 'Add', exact: true }).click();
  await phone.getByRole('button', { name: 'Rename or remove KB' }).waitFor();
  await lead.getByText('Phone (RK)').first().waitFor();
  expect(complaints).toEqual([]);

  // Killed and started: every page goes on, and nothing is lost.
  await first.killAtOnce();
  const lost = (page: Page) => page.getByText('No connection to the station. What you typed is kept.');
  await Promise.all([tablet, wall, lead].map((page) => lost(page).waitFor()));
  await tablet.goto(`${door}/#/bench`);
  // Reloaded meanwhile, a tablet still has its page, says what is the matter, and goes on by itself.
  await tablet.reload();
  await tablet.getByText(/Beadwright does not answer/).waitFor();
  const second = await openStation(file, own, port);
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
  expect(await wall.evaluate(() => caches.keys())).toEqual([]);
  await tablet.reload();
  await tablet.getByRole('navigation', { name: 'Places' }).waitFor();
}, 300_000);
