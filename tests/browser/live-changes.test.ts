import path from 'node:path';
import { expect, it } from 'vitest';
import { freePort } from '../../src-main/station/free-port.ts';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { openBrowser } from './open-browser.ts';
import { openMore } from './open-more.ts';

it('a case worked on one screen is followed on another, over a station that is stopped and started', async () => {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const port = await freePort(30_000 + (process.pid % 10_000));
  const first = await startStationProcess(file, port);
  const shop = await first.call('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 1 });
  const printerId = shop.ok ? (shop.value.printers[0]?.id ?? '') : '';
  const browser = await openBrowser();
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const [bench, inbox, watching, working] = [
    await context.newPage(),
    await context.newPage(),
    await context.newPage(),
    await context.newPage(),
  ];
  await bench.goto(first.address);
  await inbox.goto(`${first.address}#/inbox`);
  const heron = bench.getByRole('region', { name: 'Printers' });
  await heron.getByRole('link', { name: 'Heron', exact: true }).waitFor();
  await inbox.getByText('Nothing handed over').waitFor();

  // A case is opened: the bench has it.
  const opened = await first.call('case:open', {
    printerId,
    conditions: { polymer: 'abs' },
    complaints: [{ observation: 'stringing', value: 'slight' }],
  });
  const caseId = opened.ok ? opened.value.caseId : '';
  await heron.getByText('Stringing').waitFor();

  // It is worked on at one screen, with the mouse; the other one goes along.
  for (const page of [watching, working]) await page.goto(`${first.address}#/case/${caseId}`);
  const gate = (page: typeof watching) => page.getByRole('button', { name: /None of these/ });
  await gate(watching).waitFor();
  await gate(working).click();
  // Either may be told first.
  for (const page of [watching, working]) await gate(page).waitFor({ state: 'detached' });
  const questionOf = (page: typeof watching) => page.locator('.task [data-focus-here]').first().innerText();
  const asked = await questionOf(working);
  await expect.poll(() => questionOf(watching)).toBe(asked);

  // Somebody types while the station goes away.
  await openMore(watching);
  await watching.getByRole('button', { name: 'Add a note' }).click();
  await watching.getByLabel('Note').fill('the spool came from the damp shelf');
  await first.stop();
  const lost = (page: typeof watching) =>
    page.getByText('No connection to the station. What you typed is kept.');
  await Promise.all([watching, working, bench].map((page) => lost(page).waitFor()));
  const second = await startStationProcess(file, port);
  expect(second.address).toBe(first.address);
  await Promise.all([watching, working, bench].map((page) => lost(page).waitFor({ state: 'detached' })));
  await expect
    .poll(() => watching.getByLabel('Note').inputValue())
    .toBe('the spool came from the damp shelf');

  // It goes on elsewhere: what is being typed stays, and says so.
  const sent = await second.call('case:view', { caseId });
  const revision = sent.ok ? sent.value.revision : 0;
  await second.call('case:send', { caseId, revision, event: { kind: 'handed-over', note: 'needs a dryer' } });
  await watching.getByText('This case has moved on at another screen. What you typed is kept.').waitFor();
  await inbox.getByText('needs a dryer').waitFor();
  await bench.getByText('needs a dryer').waitFor();
  await watching.getByRole('button', { name: 'Keep the note' }).click();
  await watching.getByLabel('Note').waitFor({ state: 'detached' });
  await working.getByText('the spool came from the damp shelf').waitFor();
  const log = await second.call('case:timeline', { caseId });
  expect(log.ok && log.value.steps.map(({ kind }) => kind)).toEqual([
    'opened',
    'danger-answered',
    'handed-over',
    'noted',
  ]);
});
