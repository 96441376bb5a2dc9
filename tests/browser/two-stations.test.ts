import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { freePort } from '../../src-main/station/free-port.ts';
import { hasPostgres, orWhyNot, testDatabase } from '../postgres/database.ts';
import { wayTo } from '../postgres/cut-off.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { complaintToCured } from './complaint-to-cured.ts';
import { codeFor, join, openStation } from './join-devices.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';
import { openMore } from './open-more.ts';

const lost = (page: Page) => page.getByText('No connection to the station. What you typed is kept.');

it.skipIf(!hasPostgres())(
  orWhyNot(
    'with two stations on one database tablets join at both, a case worked at one is followed at the other, and nothing is lost when a station is killed and the database goes away',
  ),
  async () => {
    const way = await wayTo(await testDatabase());
    const folder = temporaryFolder();
    const open = async (name: string, own: number, port: number) =>
      openStation('', own, port, {
        BEADWRIGHT_DATABASE: way.address,
        BEADWRIGHT_STATION_FILE: path.join(folder, `${name}.json`),
      });
    const from = 12_000 + (process.pid % 8000);
    const [ownA, ownB] = [await freePort(from), await freePort(from + 60)];
    const [portA, portB] = [await freePort(from + 120), await freePort(from + 180)];
    const [hall, annex] = await Promise.all([open('hall', ownA, portA), open('annex', ownB, portB)]);
    const shop = await hall.call('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 1 });
    const heron = shop.ok ? (shop.value.printers[0]?.id ?? '') : '';

    // The lead sits at the hall's station; tablets join at either, by codes made at either.
    const browser = await openBrowser();
    const deskAt = async (address: string) => {
      const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
      await page.goto(`${address}#/shop`);
      await page.getByRole('link', { name: 'Devices and PINs' }).click();
      return page;
    };
    const [lead, annexDesk] = [await deskAt(hall.address), await deskAt(annex.address)];
    const doorA = `http://127.0.0.1:${portA}`;
    const doorB = `http://127.0.0.1:${portB}`;
    const atHeron = { label: 'Tablet at Heron', role: 'Operator', opensWith: 'Heron' };
    const tablet = await join(browser, doorB, await codeFor(annexDesk, atHeron), false);
    await tablet.getByRole('heading', { level: 1, name: 'Heron' }).waitFor();
    const phoneOf = { label: 'Phone', role: 'Operator', opensWith: 'The bench' };
    const phone = await join(browser, doorB, await codeFor(lead, phoneOf), true);
    const wallOf = { label: 'Screen on the wall', role: 'Trainer', opensWith: 'The bench' };
    const wall = await join(browser, doorA, await codeFor(lead, wallOf), false);
    // Who is let in at the annex is seen in the hall.
    const inside = lead.getByRole('region', { name: 'Devices that are let in' });
    for (const name of ['Tablet at Heron', 'Phone', 'Screen on the wall'])
      await inside.getByText(name, { exact: true }).waitFor();

    // An operator works a case at Heron, in the annex; the lead watches it live in the hall.
    const complaints = [complaintsOf(tablet), complaintsOf(wall)];
    await tablet.goto(`${doorB}/#/printer/${heron}`);
    const worked = complaintToCured({
      page: tablet,
      goTo: async (hash) => void (await tablet.goto(`${doorB}/#/${hash}`)),
    });
    await wall.getByText('Popping or spitting while loading').first().waitFor();
    await worked;
    await wall.getByText('No open cases').waitFor();
    expect(complaints.flat()).toEqual([]);

    // Copies are PostgreSQL's business here, and the settings say how.
    await annexDesk.goto(`${annex.address}#/settings`);
    await annexDesk.getByText(/^pg_dump --format=custom/).waitFor();
    await expect.poll(() => annexDesk.getByRole('button', { name: 'Back up now' }).count()).toBe(0);

    // The annex's station is killed; the hall goes on, and its answers are at the annex when that is back.
    await annex.killAtOnce();
    await Promise.all([tablet, phone].map((page) => lost(page).waitFor()));
    const opened = await hall.call('case:open', {
      printerId: heron,
      complaints: [{ observation: 'stringing', value: 'slight' }],
    });
    const caseId = opened.ok ? opened.value.caseId : '';
    await wall.getByText('Stringing').first().waitFor();
    const again = await open('annex', ownB, portB);
    await Promise.all([tablet, phone].map((page) => lost(page).waitFor({ state: 'detached' })));
    await phone.goto(`${doorB}/#/bench`);
    await phone.getByText('Stringing').first().waitFor();

    // The database goes away: what is typed stays, and is kept when it is back.
    await phone.goto(`${doorB}/#/case/${caseId}`);
    await openMore(phone);
    await phone.getByRole('button', { name: 'Add a note' }).click();
    await phone.getByLabel('Note').fill('from the damp shelf');
    await way.cut();
    await phone.getByRole('button', { name: 'Keep the note' }).click();
    await phone
      .getByText(/casebook is not open|database .* is not there/)
      .first()
      .waitFor();
    await expect.poll(() => phone.getByLabel('Note').inputValue()).toBe('from the damp shelf');
    await way.join();
    await expect
      .poll(async () => (await again.call('case:view', { caseId })).ok, { timeout: 30_000 })
      .toBe(true);
    await phone.getByRole('button', { name: 'Keep the note' }).click();
    await phone.getByLabel('Note').waitFor({ state: 'detached' });
    const log = await hall.call('case:timeline', { caseId });
    expect(log.ok && log.value.steps.map(({ kind }) => kind)).toEqual(['opened', 'noted']);
    const cases = await hall.call('case:list', {});
    expect(cases.ok && cases.value.rows.map(({ number }) => number).sort()).toEqual([1, 2]);
  },
  600_000,
);
