import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { isNightly } from '../nightly.ts';
import { PSEUDO_TAG } from '../renderer/messages/pseudo-language.ts';
import { startStationProcess, type StationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { addressesToVisit, visit } from './addresses-to-visit.ts';
import { complaintsOf, openBrowser, type Windows } from './open-browser.ts';
import { coveredFields, pastTheEdge } from './past-the-edge.ts';
import { outsideReadersColours } from './reader-colours.ts';
import { outsideTheCatalogue, speakPseudo } from './pseudo-language.ts';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const ALL_RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const PAGES_AT_ONCE = 2;

interface Look {
  readonly name: string;
  readonly theme: 'light' | 'dark';
  readonly width: number;
  readonly height: number;
  readonly axe: 'all' | 'none';
  /** A contrast theme: the reader's colours for ours. */
  readonly readersColours?: true;
}

const DESK = { name: 'desk', width: 1280, height: 800 };
const TABLET = { name: 'tablet upright', width: 820, height: 1180 };
const PHONE = { name: 'phone', width: 390, height: 844 };
const SMALL_PHONE = { name: 'small phone', width: 360, height: 740 };
const ZOOMED = { name: 'desk at 200 %', width: 640, height: 400 };
const ZOOMED_MORE = { name: 'desk at 400 %', width: 320, height: 200 };
const BIG = { name: 'big screen', width: 2560, height: 1440 };

/** By day each screen is taken through axe once, in turn light at the desk and dark on a phone; by night in each theme at each width. */
const LOOKS: readonly Look[] = isNightly
  ? (['light', 'dark'] as const).flatMap((theme) => [
      ...[DESK, TABLET, PHONE].map((size) => ({ ...size, theme, axe: 'all' as const })),
      ...[SMALL_PHONE, ZOOMED, ZOOMED_MORE, BIG].map((size) => ({ ...size, theme, axe: 'none' as const })),
      { ...DESK, name: 'contrast theme', theme, axe: 'all' as const, readersColours: true as const },
    ])
  : [
      { ...DESK, theme: 'light', axe: 'all' },
      { ...SMALL_PHONE, theme: 'dark', axe: 'none' },
      { ...PHONE, theme: 'dark', axe: 'all' },
      { ...DESK, name: 'contrast theme', theme: 'dark', axe: 'none', readersColours: true },
    ];

interface AxeResult {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly target: unknown; readonly failureSummary?: string }[];
  }[];
}

/**
 * What axe finds on the page, in a window as high as all of it: a bar that stays at the edge while one scrolls covers half a box here
 * or there, by where the page happens to end. axe is put in through the debugger, which the page's policy does not bind.
 */
async function axeFindings(page: Page, { width, height }: Look): Promise<string[]> {
  const fullHeight = await page.evaluate(() => document.documentElement.scrollHeight);
  await page.setViewportSize({ width, height: Math.max(height, fullHeight) });
  if (!(await page.evaluate(`'axe' in window`))) await page.evaluate(axeSource);
  const runOnly = { type: 'tag', values: ALL_RULES };
  const result = await page.evaluate<AxeResult>(
    `axe.run(document, { runOnly: ${JSON.stringify(runOnly)}, resultTypes: ['violations'] })`,
  );
  await page.setViewportSize({ width, height });
  return result.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${JSON.stringify(node.target)} ${node.failureSummary ?? ''}`),
  );
}

/** What is wrong on the page that stands there when it is looked at in this way. */
async function findingsIn(page: Page, look: Look): Promise<string[]> {
  await page.setViewportSize(look);
  await page.emulateMedia({
    colorScheme: look.theme,
    reducedMotion: 'reduce',
    forcedColors: look.readersColours ? 'active' : 'none',
  });
  await page.evaluate('new Promise((shown) => requestAnimationFrame(() => requestAnimationFrame(shown)))');
  const findings = look.axe === 'none' ? [] : await axeFindings(page, look);
  const shown = await page.evaluate(() => document.documentElement.dataset['theme']);
  if (shown !== look.theme) findings.push(`shows the ${shown} theme`);
  if (look.readersColours) findings.push(...(await page.evaluate(outsideReadersColours)));
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  if (overflow > 0) findings.push(`scrolls ${overflow} px sideways`);
  findings.push(...(await page.evaluate(pastTheEdge)).map((what) => `past the edge: ${what}`));
  findings.push(...(await page.evaluate(coveredFields)).map((what) => `covered: ${what}`));
  const headings = await page.locator('h1').count();
  if (headings !== 1) findings.push(`${headings} first headings`);
  return findings;
}

interface Visit {
  readonly address: string;
  /** The theme in which axe goes over it by day. */
  readonly turn: 'light' | 'dark';
}

/** Visits the addresses that are left, one after the other, and looks at each in every way. */
async function visitAll(browser: Windows, station: StationProcess, left: Visit[]): Promise<string[]> {
  const page = await browser.newPage();
  const complaints = complaintsOf(page);
  const findings: string[] = [];
  for (let next = left.shift(); next !== undefined; next = left.shift()) {
    const { address, turn } = next;
    await visit(page, station, address);
    for (const one of LOOKS) {
      const look = isNightly || one.theme === turn ? one : { ...one, axe: 'none' as const };
      const where = `${address} ${look.name} ${look.theme}`;
      findings.push(...(await findingsIn(page, look)).map((finding) => `${where}: ${finding}`));
    }
  }
  return [...findings, ...complaints];
}

it('axe finds nothing on any screen, nothing scrolls sideways, one heading leads, no policy is violated', async () => {
  const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
  const addresses = await addressesToVisit(station);
  // Fixed by the list, not by which page is quicker: what is found today is found tomorrow.
  const left = addresses.map((address, index): Visit => ({
    address,
    turn: index % 2 === 0 ? 'light' : 'dark',
  }));
  const browser = await openBrowser();
  const found = await Promise.all(
    Array.from({ length: PAGES_AT_ONCE }, () => visitAll(browser, station, left)),
  );
  expect(found.flat()).toEqual([]);
  await station.stop();
}, 1_800_000);

it.runIf(isNightly)(
  'every text of every screen is a message, and longer ones fit on a phone and at the desk',
  async () => {
    const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
    const addresses = await addressesToVisit(station);
    const page = await (await openBrowser()).newPage();
    const complaints = complaintsOf(page);
    const sent = await speakPseudo(page);
    const findings: string[] = [];
    for (const address of addresses) {
      await visit(page, station, address);
      findings.push(...(await outsideTheCatalogue(page, sent)).map((text) => `${address}: ${text}`));
      for (const size of [PHONE, DESK]) {
        await page.setViewportSize(size);
        await page.evaluate(
          'new Promise((shown) => requestAnimationFrame(() => requestAnimationFrame(shown)))',
        );
        const beyond = await page.evaluate(pastTheEdge);
        findings.push(...beyond.map((what) => `${address} ${size.name}: past the edge: ${what}`));
      }
    }
    expect(await page.evaluate(() => document.documentElement.lang)).toBe(PSEUDO_TAG);
    expect([...findings, ...complaints]).toEqual([]);
    await station.stop();
  },
  600_000,
);
