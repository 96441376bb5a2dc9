import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium, type Page } from 'playwright-core';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { contextOfCase } from '../../src-main/command/diagnose.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import { BROWSER_ARGUMENTS, findBrowser } from '../browser/find-browser.ts';
import { caseFileOf, readFurtherCases, readOpenCases } from '../open-cases/open-cases.ts';
import { launchStation, type StationProcess } from '../processes/launch-station.ts';

const root = path.join(import.meta.dirname, '..', '..');
const STARTS = 7;
/** A station has the same port at every start, so that a browser finds what it kept. */
const PORT = 21_455;
/** Answers given in one case. */
const ANSWERS = 5;
/** Somebody looks at the printer before they answer, ms. */
const LOOK_MS = 2500;

/**
 * What somebody at the machine waits for, in a real browser over the built station: from the start of the program to the bench, and
 * from an answer to the next question on the screen. The program must be built.
 */
export async function benchScreens(count: number): Promise<void> {
  console.log(`load ${os.loadavg()[0]?.toFixed(1)} on ${os.cpus().length} cores`);
  const folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-screens-'));
  const browser = await chromium.launch({ executablePath: findBrowser(), args: BROWSER_ARGUMENTS });
  try {
    const file = path.join(folder, 'casebook.sqlite');
    // Parses what is kept for the next start, and writes the casebook.
    await (await launchStation(file, undefined, PORT)).stop();
    const page = await browser.newPage({ viewport: { width: 820, height: 1180 } });
    await benchStart(file, page);
    await benchAnswering(file, page, count);
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function benchStart(file: string, page: Page): Promise<void> {
  const listening: number[] = [];
  const shown: number[] = [];
  // The first is not counted: the browser keeps the guide then.
  for (let n = 0; n <= STARTS; n++) {
    const at = performance.now();
    const station = await launchStation(file, undefined, PORT);
    const answersAt = performance.now();
    await page.goto(`${station.address}#/bench`);
    await page.locator('main h1').first().waitFor();
    const shownAt = performance.now();
    if (n > 0) listening.push(answersAt - at);
    if (n > 0) shown.push(shownAt - at);
    await station.stop();
  }
  console.log(`  start of the program until it answers           ${figuresOf(listening)}`);
  console.log(`  start of the program until the bench is there   ${figuresOf(shown)}`);
}

async function benchAnswering(file: string, page: Page, count: number): Promise<void> {
  const knowledge = readKnowledge(root, programVersion(root));
  const station = await launchStation(file);
  const looked: number[] = [];
  try {
    await page.goto(station.address);
    for (const [index, real] of [...readOpenCases(), ...readFurtherCases()].slice(0, count).entries()) {
      const { intake } = contextOfCase(knowledge, caseFileOf(knowledge, real.id, real));
      if (!intake) continue;
      const opened = await station.call('case:open', {
        conditions: intake.conditions,
        complaints: intake.complaints,
      });
      if (!opened.ok) continue;
      const { caseId, revision } = opened.value;
      if (opened.value.state !== 'stop-now') continue;
      await told(station, caseId, revision);
      await page.goto(`${station.address}#/case/${caseId}`);
      await page.locator('.checking').waitFor();
      for (let n = 0; n < ANSWERS; n++) {
        await pause(LOOK_MS);
        const ms = await painted(page, String(1 + ((index + n) % 2)));
        if (ms === null) break;
        looked.push(ms);
      }
    }
  } finally {
    await station.stop();
  }
  console.log(`  an answer after ${LOOK_MS / 1000} s of looking until it is painted ${figuresOf(looked)}`);
}

async function told(station: StationProcess, caseId: string, revision: number): Promise<void> {
  const sent = await station.call('case:send', {
    caseId,
    revision,
    event: { kind: 'danger-answered', present: [] },
  });
  if (!sent.ok) throw new Error(sent.error.message);
}

/** Milliseconds from the key to the frame that shows what came of it; null where the key answers nothing. */
async function painted(page: Page, key: string): Promise<number | null> {
  return page.evaluate(
    (pressed) =>
      new Promise<number | null>((resolve) => {
        const sends = () =>
          performance.getEntriesByType('resource').filter(({ name }) => name.includes('case:send')).length;
        performance.setResourceTimingBufferSize(100_000);
        const before = sends();
        const at = performance.now();
        document.body.dispatchEvent(new KeyboardEvent('keydown', { key: pressed, bubbles: true }));
        const look = () => {
          if (sends() > before) requestAnimationFrame(() => resolve(performance.now() - at));
          else if (performance.now() - at > 5000) resolve(null);
          else requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
      }),
    key,
  );
}

function figuresOf(values: readonly number[]): string {
  const sorted = values.toSorted((a, b) => a - b);
  const of = (share: number) =>
    (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN).toFixed(0);
  return `median ${of(0.5)} p90 ${of(0.9)} ms (${values.length})`;
}
