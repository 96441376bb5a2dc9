import { expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { sharedStation } from './shared-station.ts';

const open = sharedStation();

it('an empty casebook says how it works in three lines, with two ways on', async () => {
  const { station, page } = await open({ width: 360, height: 740 });
  await page.goto(`${station.address}#/bench`);
  const how = page.getByRole('region', { name: 'How it works' });
  await how.waitFor();
  await expect.poll(() => how.getByRole('listitem').count()).toBe(3);
  await how.getByRole('button', { name: 'Load the demo shop' }).waitFor();
  await expect
    .poll(() => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth))
    .toBe(0);
  await how.getByRole('link', { name: 'Start a case' }).click();
  await page.getByRole('heading', { name: 'What is wrong?' }).waitFor();
});

async function opened(width: number) {
  const { station, page, complaints } = await open({ width, height: 844 });
  const printers = new Map<string, string>();
  for (const label of ['Wren', 'Heron', 'Rook', 'Plover']) {
    const shop = await station.call('shop:save-printer', { label, conditions: {}, printHours: 0 });
    const printer = shop.ok ? shop.value.printers.find((one) => one.label === label) : undefined;
    printers.set(label, printer?.id ?? '');
  }
  const begin = async (label: string | null, observation: string, events: readonly CaseEvent[]) => {
    const view = await station.call('case:open', {
      printerId: label === null ? null : (printers.get(label) ?? null),
      openedBy: 'RK',
      complaints: [{ observation, value: 'present' }],
    });
    const caseId = view.ok ? view.value.caseId : '';
    let revision = 1;
    for (const event of events) {
      const sent = await station.call('case:send', { caseId, revision, event });
      expect(sent.ok).toBe(true);
      revision++;
    }
    return caseId;
  };
  return { station, page, begin, complaints };
}

/** How far the mark of each card lies off the line on which its name stands, px. */
function besideTheLine(cards: readonly Element[]): number[] {
  const lineOf = (node: Element | null) => {
    const probe = document.createElement('span');
    probe.style.cssText = 'display: inline-block; width: 0; height: 0';
    node?.append(probe);
    const { bottom } = probe.getBoundingClientRect();
    probe.remove();
    return bottom;
  };
  return cards.map((card) =>
    Math.round(lineOf(card.querySelector('header .mark')) - lineOf(card.querySelector('h2 a'))),
  );
}

const safe: CaseEvent = { kind: 'danger-answered', present: [] };

it('the bench shows every printer: danger first from edge to edge, trouble, waiting with its reason, running', async () => {
  const { station, page, begin, complaints } = await opened(1280);
  await begin('Heron', 'stringing', [safe]);
  await begin('Rook', 'stringing', [safe, { kind: 'parked', note: 'waits for a 0.6 nozzle' }]);
  const smoking = await begin('Plover', 'smoke-or-burning-smell', [{ kind: 'made-safe' }]);
  await begin(null, 'stringing', [safe]);
  await page.goto(`${station.address}#/bench`);

  const wall = page.getByRole('region', { name: 'Dangerous machines' });
  await wall.getByText('Do not use: Plover').waitFor();
  const box = await wall.boundingBox();
  const width = await page.evaluate(() => document.documentElement.clientWidth);
  expect(box?.x).toBeLessThanOrEqual(0);
  expect((box?.x ?? 0) + (box?.width ?? 0)).toBeGreaterThanOrEqual(width);

  const cards = page.getByRole('article');
  await expect
    .poll(async () => (await cards.getByRole('heading').allInnerTexts()).map((one) => one.trim()))
    .toEqual(['Plover', 'Heron', 'Rook', 'Wren']);
  const card = (label: string) => cards.filter({ has: page.getByRole('heading', { name: label }) });
  await card('Heron').getByText('In trouble').waitFor();
  await card('Heron').getByText('RK: check').waitFor();
  await card('Rook').getByText('“waits for a 0.6 nozzle”').waitFor();
  await card('Wren').getByText('Running').waitFor();
  await page.getByRole('heading', { name: 'Open cases of no printer' }).waitFor();
  // On a phone, too, a mark stands on the line of the name beside it.
  await page.setViewportSize({ width: 390, height: 844 });
  expect(await cards.evaluateAll(besideTheLine)).toEqual([0, 0, 0, 0]);
  await page.setViewportSize({ width: 1280, height: 844 });

  await wall.getByRole('link').click();
  await page.getByRole('heading', { name: 'Leave it off. Hand it over.' }).waitFor();
  // Nothing is asked, so what may be written down stands there without "More".
  await page.getByRole('button', { name: 'Add a note' }).waitFor();
  expect(page.url()).toContain(smoking);

  // A case begun from a printer's card has that printer, and asks nothing that it knows.
  await page.goto(`${station.address}#/bench`);
  await card('Wren')
    .getByRole('link', { name: /Something is wrong/ })
    .click();
  await page.getByRole('heading', { name: 'What is wrong?' }).waitFor();
  await expect.poll(() => page.getByRole('radio', { name: 'Wren' }).isChecked()).toBe(true);
  expect(complaints).toEqual([]);
});
