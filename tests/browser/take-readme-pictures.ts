/** Takes the README's pictures from the demo shop's year. The program must be built (`npm run build`). */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, type Page } from 'playwright-core';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { showIn } from './show-in.ts';
import { launchStation, type StationProcess } from '../processes/launch-station.ts';
import { visit } from './addresses-to-visit.ts';
import { BROWSER_ARGUMENTS, findBrowser } from './find-browser.ts';

const FOLDER = path.join(import.meta.dirname, '..', '..', 'resources', 'screens');
const DESK = { width: 1280, height: 800 };
const TABLET = { width: 820, height: 1180 };
type Theme = 'light' | 'dark';

const WET = [
  { observation: 'popping-while-loading', value: 'slight' },
  { observation: 'stringing', value: 'slight' },
];

/** A case of the demo shop's first printer, with its open ABS or no spool, brought as far as `events` say. */
async function caseAfter(
  station: StationProcess,
  events: readonly CaseEvent[],
  complaints = WET,
): Promise<string> {
  const shop = await station.call('shop:read', {});
  if (!shop.ok) throw new Error(shop.error.message);
  const { printers, spools } = shop.value;
  const opened = await station.call('case:open', {
    printerId: printers[0]?.id ?? null,
    spoolId:
      complaints === WET
        ? (spools.find((one) => one.polymer === 'abs' && one.storage === 'open')?.id ?? null)
        : null,
    conditions: { 'nozzle-mm': 0.8 },
    complaints,
  });
  if (!opened.ok) throw new Error(opened.error.message);
  const { caseId } = opened.value;
  for (const [index, event] of events.entries()) {
    const sent = await station.call('case:send', { caseId, revision: index + 1, event });
    if (!sent.ok) throw new Error(sent.error.message);
  }
  return `case/${caseId}`;
}

async function pickComplaint(page: Page): Promise<void> {
  await page.getByLabel('Search what is wrong').fill('popping');
  await page.getByRole('checkbox', { name: 'Popping or spitting while loading' }).check();
  await page.getByLabel('Search what is wrong').fill('');
  await page.evaluate(() => window.scrollTo(0, 0));
}

async function takeAll(station: StationProcess): Promise<void> {
  const shop = await station.call('demo:load', {});
  if (!shop.ok) throw new Error(shop.error.message);
  const spool = shop.value.spools.find((one) => one.polymer === 'abs' && one.storage === 'open');
  const safe: CaseEvent = { kind: 'danger-answered', present: [] };
  const pictures: readonly {
    readonly name: string;
    readonly address: string;
    readonly size?: { readonly width: number; readonly height: number };
    readonly theme?: Theme;
    readonly before?: (page: Page) => Promise<void>;
  }[] = [
    { name: 'intake', address: 'intake', before: pickComplaint },
    { name: 'casebook', address: 'casebook' },
    { name: 'what-comes-back', address: 'recurrence' },
    { name: 'spool', address: `spool/${spool?.id ?? ''}/20` },
    { name: 'flow-sheet', address: 'flow' },
    {
      name: 'question',
      address: await caseAfter(station, [safe], [{ observation: 'weak-layer-bonds', value: 'slight' }]),
    },
    {
      name: 'what-to-do',
      address: await caseAfter(station, [safe, { kind: 'verdict-asked' }]),
      size: TABLET,
      theme: 'dark',
    },
    { name: 'guide-sheet', address: 'guide/cause/wet-filament', theme: 'dark' },
  ];
  const browser = await chromium.launch({ executablePath: findBrowser(), args: BROWSER_ARGUMENTS });
  try {
    for (const { name, address, size = DESK, theme = 'light', before } of pictures) {
      const context = await browser.newContext({ reducedMotion: 'reduce', viewport: size });
      await showIn(station, theme);
      const page = await context.newPage();
      await visit(page, station, address);
      await before?.(page);
      await page.waitForLoadState('networkidle');
      await page.screenshot({ path: path.join(FOLDER, `${name}.png`) });
      await context.close();
    }
  } finally {
    await browser.close();
  }
}

const scratch = await mkdtemp(path.join(tmpdir(), 'beadwright-readme-'));
const station = await launchStation(path.join(scratch, 'casebook.sqlite'));
try {
  await takeAll(station);
} finally {
  await station.stop();
  await rm(scratch, { recursive: true, force: true });
}
