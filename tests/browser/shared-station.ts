import { rmSync, mkdtempSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, onTestFinished } from 'vitest';
import { ended } from '../processes/ended.ts';
import { launchStation, type StationProcess } from '../processes/launch-station.ts';
import { complaintsOf, newWindow, workersBrowser } from './open-browser.ts';

/** A page in a window of its own, with nothing kept from the tests before. */
export interface Opened {
  readonly station: StationProcess;
  readonly page: Page;
  /** What the page did that it must not. */
  readonly complaints: readonly string[];
}

/**
 * One station, on a casebook of its own, for the tests of a file that do not disturb one another: starting it costs more than
 * most tests. Call it once, at the top of the file; each test opens its page with what it returns.
 */
export function sharedStation(): (viewport?: { width: number; height: number }) => Promise<Opened> {
  let station: StationProcess | undefined;
  let folder = '';
  const begun: Parameters<typeof ended>[0][] = [];
  beforeAll(async () => {
    folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-'));
    [station] = await Promise.all([
      launchStation(path.join(folder, 'casebook.sqlite'), (child) => begun.push(child)),
      workersBrowser(),
    ]);
  }, 300_000);
  afterAll(async () => {
    await Promise.all(begun.map((child) => ended(child, 'SIGKILL')));
    rmSync(folder, { recursive: true, force: true });
  });
  return async (viewport = { width: 1280, height: 800 }) => {
    if (!station) throw new Error('the station of this file did not start');
    const browser = await workersBrowser();
    const context = await newWindow(browser, { viewport });
    onTestFinished(() => context.close());
    const page = await context.newPage();
    return { station, page, complaints: complaintsOf(page) };
  };
}
