import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { addressesToVisit, visit } from './addresses-to-visit.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const SIZES = [
  { name: 'desk', width: 1280, height: 800, hasAxe: true },
  { name: 'tablet upright', width: 820, height: 1180, hasAxe: true },
  { name: 'phone', width: 390, height: 844, hasAxe: true },
  { name: 'small phone', width: 360, height: 740, hasAxe: false },
  { name: 'desk at 200 %', width: 640, height: 400, hasAxe: false },
] as const;

interface AxeResult {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly target: unknown; readonly failureSummary?: string }[];
  }[];
}

/** What axe finds on the page as it stands. It is put in through the debugger, which the page's policy does not bind. */
async function axeFindings(page: Page): Promise<string[]> {
  await page.evaluate(axeSource);
  const result = await page.evaluate<AxeResult>(
    `axe.run(document, { runOnly: ${JSON.stringify(RULES)}, resultTypes: ['violations'] })`,
  );
  return result.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${JSON.stringify(node.target)} ${node.failureSummary ?? ''}`),
  );
}

describe('every screen', () => {
  it.each(['light', 'dark'] as const)(
    'in the %s theme: axe finds nothing, nothing scrolls sideways, one heading leads, no policy is violated',
    async (theme) => {
      const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
      const addresses = await addressesToVisit(station);
      const browser = await openBrowser();
      const context = await browser.newContext();
      await context.addInitScript(
        (value) => localStorage.setItem('beadwright.display', JSON.stringify({ theme: value })),
        theme,
      );
      const page = await context.newPage();
      const complaints = complaintsOf(page);
      const findings: string[] = [];
      for (const size of SIZES) {
        await page.setViewportSize(size);
        for (const address of addresses) {
          await visit(page, station, address);
          const where = `${address} ${size.name}`;
          if (size.hasAxe)
            findings.push(...(await axeFindings(page)).map((finding) => `${where}: ${finding}`));
          const overflow = await page.evaluate(
            () => document.documentElement.scrollWidth - window.innerWidth,
          );
          if (overflow > 0) findings.push(`${where}: scrolls ${overflow} px sideways`);
          const headings = await page.locator('h1').count();
          if (headings !== 1) findings.push(`${where}: ${headings} first headings`);
        }
      }
      expect(findings).toEqual([]);
      expect(complaints).toEqual([]);
      await station.stop();
    },
    1_800_000,
  );
});
