import { expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { visit } from '../browser/addresses-to-visit.ts';
import { sharedStation } from '../browser/shared-station.ts';
import { isNightly } from '../nightly.ts';
import type { StationProcess } from '../processes/launch-station.ts';
import { figure } from './figures.ts';
import { hostile } from './hostile-text.ts';

const open = sharedStation();
const WIDTHS = isNightly ? [1280, 820, 390] : [1280];

/** A shop and cases whose every free text is hostile; returns the addresses that show them. */
async function hostileShop(station: StationProcess): Promise<string[]> {
  const ask = async <T>(
    reply: Promise<{ ok: true; value: T } | { ok: false; error: { message: string } }>,
  ) => {
    const settled = await reply;
    if (!settled.ok) throw new Error(settled.error.message);
    return settled.value;
  };
  await ask(
    station.call('shop:save-printer', {
      label: hostile.longWord,
      conditions: {},
      printHours: 1,
      note: hostile.longNote,
    }),
  );
  await ask(station.call('shop:save-printer', { label: hostile.markup, conditions: {}, printHours: 1 }));
  const material = { polymer: 'abs', supplier: hostile.longWord, batch: hostile.longWord };
  const shop = await ask(
    station.call('shop:save-spool', { ...material, label: hostile.longWord, note: hostile.longNote }),
  );
  const [printer] = shop.printers.filter(({ label }) => label === hostile.longWord);
  const spoolId = shop.spools[0]?.id ?? '';
  const events: CaseEvent[] = [
    { kind: 'danger-answered', present: [] },
    { kind: 'noted', text: hostile.longNote },
    { kind: 'noted', text: `${hostile.markup} ${hostile.template} \u202eturned` },
    {
      kind: 'closed',
      causes: [{ named: hostile.longWord }],
      practice: null,
      minutesLost: 1,
      gramsScrapped: 1,
      note: hostile.longNote,
    },
  ];
  const cases: string[] = [];
  for (const upTo of [events.length - 1, events.length]) {
    const { caseId } = await ask(
      station.call('case:open', {
        printerId: printer?.id ?? null,
        spoolId,
        complaints: [{ observation: 'stringing', value: 'slight' }],
        words: `${hostile.longNote.slice(0, 300)} ${hostile.markup}`,
      }),
    );
    for (const [index, event] of events.slice(0, upTo).entries())
      await ask(station.call('case:send', { caseId, revision: index + 1, event }));
    cases.push(caseId);
  }
  const [openCase = '', closedCase = ''] = cases;
  const mostWidened = [
    'shop',
    'casebook',
    `case/${openCase}`,
    `spool/${spoolId}`,
    'recurrence',
    'meeting',
    'experience',
  ];
  if (!isNightly) return mostWidened;
  return [
    ...mostWidened,
    'bench',
    'intake',
    'inbox',
    `case/${closedCase}`,
    `timeline/${openCase}`,
    `printer/${printer?.id ?? ''}`,
    'labels',
    'printer-codes',
  ];
}

/** Runs in the page: texts that a mark which turns words about shares a line with. An element of its own keeps it in. */
function textsTurnedAbout(): string[] {
  const found: string[] = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const text = node.nodeValue ?? '';
    const parent = node.parentElement;
    if (!/[\u202a-\u202e\u2066-\u2069]/.test(text) || !parent) continue;
    const { unicodeBidi, display } = getComputedStyle(parent);
    const isKeptIn = unicodeBidi === 'isolate' || unicodeBidi === 'plaintext' || display === 'block';
    if (!isKeptIn || parent.textContent?.trim() !== text.trim())
      found.push(`"${text.slice(0, 60)}" turns about "${parent.textContent?.slice(0, 60)}"`);
  }
  return found;
}

it('long unbroken words widen no page, marks turn about no words but their own, markup is shown as text, and nothing is executed (attack, low: long words, RTL overrides)', async () => {
  const { station, page, complaints } = await open();
  const addresses = await hostileShop(station);
  const findings: string[] = [];
  page.on('dialog', (dialog) => {
    findings.push(`a dialog was opened: ${dialog.message()}`);
    void dialog.dismiss();
  });
  for (const address of addresses) {
    await visit(page, station, address);
    for (const width of WIDTHS) {
      await page.setViewportSize({ width, height: 900 });
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      if (overflow > 0) findings.push(`${address} at ${width} px scrolls ${overflow} px sideways`);
    }
    await page.setViewportSize({ width: 1280, height: 900 });
    if (await page.evaluate(() => 'wasExecuted' in window)) findings.push(`${address} executed a text`);
    for (const beside of await page.evaluate(textsTurnedAbout)) findings.push(`${address}: ${beside}`);
  }
  expect([...findings, ...complaints]).toEqual([]);
  figure(
    'hostile text',
    `${addresses.length} addresses x ${WIDTHS.length} widths: 0 executions, no screen widened`,
  );
});
