import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { isNightly } from '../nightly.ts';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { go } from './go.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';

it('after a cure by another spool the wet one is still to be dried, here and first on its page', async () => {
  const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
  onTestFinished(() => station.stop());
  const shop = await station.call('shop:save-spool', {
    label: 'A-12',
    polymer: 'abs',
    storage: 'open',
    openedAt: '2026-01-05T00:00:00.000Z',
  });
  if (!shop.ok) throw new Error(shop.error.message);
  const spoolId = shop.value.spools[0]?.id ?? '';
  const opened = await station.call('case:open', {
    spoolId,
    conditions: { 'nozzle-mm': 0.8 },
    complaints: [
      { observation: 'stringing', value: 'slight' },
      { observation: 'popping-while-loading', value: 'heavy' },
    ],
  });
  if (!opened.ok) throw new Error(opened.error.message);
  const { caseId } = opened.value;
  const events: CaseEvent[] = [
    { kind: 'danger-answered', present: [] },
    { kind: 'remedy-chosen', remedy: 'dry-the-spool' },
    { kind: 'remedy-done' },
  ];
  for (const [index, event] of events.entries()) {
    const sent = await station.call('case:send', { caseId, revision: index + 1, event });
    if (!sent.ok) throw new Error(sent.error.message);
  }
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  const complaints = complaintsOf(page);
  await go(page, `${station.address}#/case/${caseId}`);

  // One of two is gone: that is no cure, and what is left is looked at next.
  const one = (label: RegExp) => page.getByRole('group', { name: label });
  await one(/^Popping/)
    .getByRole('button', { name: 'Gone' })
    .click();
  await one(/^Stringing/)
    .getByRole('button', { name: 'Still there' })
    .click();
  await expect.poll(() => page.getByRole('button', { name: /^Cured/ }).count()).toBe(0);
  await page.getByRole('button', { name: /^Helped in part/ }).click();
  await page.getByRole('heading', { name: 'Did it work?' }).waitFor({ state: 'detached' });
  await page.getByText('Popping or spitting while loading: none').waitFor();

  const view = await station.call('case:view', { caseId });
  if (!view.ok) throw new Error(view.error.message);
  const closed: CaseEvent = {
    kind: 'closed',
    causes: [{ cause: 'wet-filament' }],
    practice: null,
    minutesLost: 0,
    gramsScrapped: 0,
    note: '',
  };
  const sent = await station.call('case:send', { caseId, revision: view.value.revision, event: closed });
  if (!sent.ok) throw new Error(sent.error.message);
  await page.reload();
  const todo = page.getByRole('region', { name: 'Still to be done' });
  // Given to somebody it is a task of theirs, once, however often it is pressed.
  await todo.getByRole('button', { name: 'Give it to somebody' }).click();
  const sheet = page.getByRole('dialog', { name: /^Dry A-12 \(case \d+\)$/ });
  await sheet.getByLabel('Who (initials)').fill('E1');
  await sheet.getByRole('button', { name: 'Make it a task' }).click();
  await sheet.getByText('Initials are one to four letters.').waitFor();
  await sheet.getByLabel('Who (initials)').fill('EL');
  await sheet.getByLabel('By when').fill('2099-12-03');
  await sheet.getByRole('button', { name: 'Make it a task' }).dblclick();
  await todo.getByRole('link', { name: 'EL · Due 3 Dec 2099' }).waitFor();
  const tasks = await station.call('action:list', {});
  expect(tasks.ok ? tasks.value.actions : []).toMatchObject([
    { title: expect.stringMatching(/^Dry A-12/) as string, owner: 'EL', about: null },
  ]);
  await todo.getByRole('link', { name: 'Dry A-12' }).click();
  const first = page.getByRole('region', { name: 'Fit to print?' });
  await first.getByText(/^Dry it first/).waitFor();
  await first.getByText('not dried since').waitFor();
  expect(complaints).toEqual([]);
});

it.runIf(isNightly)(
  'a wait goes on when its screen is left, and reminds on every screen until it is looked at',
  async () => {
    const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
    onTestFinished(() => station.stop());
    const opened = await station.call('case:open', {
      complaints: [{ observation: 'stringing', value: 'slight' }],
    });
    if (!opened.ok) throw new Error(opened.error.message);
    const { caseId } = opened.value;
    const events: CaseEvent[] = [
      { kind: 'danger-answered', present: [] },
      { kind: 'remedy-chosen', remedy: 'dry-the-spool' },
    ];
    for (const [index, event] of events.entries())
      expect((await station.call('case:send', { caseId, revision: index + 1, event })).ok).toBe(true);
    const page = await (await openBrowser()).newPage({ viewport: { width: 390, height: 844 } });
    const complaints = complaintsOf(page);
    await page.clock.install();
    await go(page, `${station.address}#/case/${caseId}`);
    const timer = page.getByRole('region', { name: 'Start a timer for the wait' });
    await timer.getByRole('button', { name: '2 h', exact: true }).click();
    await page.getByRole('heading', { name: /^Ready at/ }).waitFor();
    await go(page, `${station.address}#/bench`);
    await page.getByText(/Dry the spool\. Ready at/).waitFor();
    await go(page, `${station.address}#/guide`);
    await page.clock.fastForward('03:00:00');
    const reminder = page.getByRole('link', { name: /^Dry the spool The wait is over since/ });
    await reminder.click();
    await page.getByRole('heading', { name: /^The wait is over since/ }).waitFor();
    await expect.poll(() => reminder.count()).toBe(0);
    await page.getByRole('button', { name: 'Stop the timer' }).click();
    await timer.waitFor();
    expect(complaints).toEqual([]);
  },
);
