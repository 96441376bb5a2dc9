import path from 'node:path';
import { expect, it } from 'vitest';
import { isNightly } from '../nightly.ts';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { addressesToVisit, visit } from './addresses-to-visit.ts';
import { openBrowser } from './open-browser.ts';

interface LayoutShift extends PerformanceEntry {
  readonly value: number;
  readonly hadRecentInput: boolean;
}

/** Web Vitals call 0.1 good (Layout Instability API, cumulative layout shift); here nothing a thumb could miss is to move. */
const MOST_SHIFT = 0.01;
const SETTLED_MS = 700;

// By night only: what comes later than a screen waits for it may move, and by day a machine may be that slow.
it.runIf(isNightly)(
  'nothing moves on any screen once it is shown, on a phone and at the desk',
  async () => {
    const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
    const addresses = await addressesToVisit(station);
    const page = await (await openBrowser()).newPage();
    await page.addInitScript(() => {
      const shifts: number[] = [];
      Object.assign(window, { shifts });
      new PerformanceObserver((list) => {
        for (const { value, hadRecentInput } of list.getEntries() as LayoutShift[])
          if (!hadRecentInput) shifts.push(value);
      }).observe({ type: 'layout-shift', buffered: true });
    });
    const moved: string[] = [];
    for (const size of [
      { width: 1280, height: 800 },
      { width: 390, height: 844 },
    ]) {
      await page.setViewportSize(size);
      for (const address of addresses) {
        await page.goto('about:blank');
        await visit(page, station, address);
        await page.waitForTimeout(SETTLED_MS);
        const shifts = await page.evaluate<number[]>('window.shifts');
        const sum = shifts.reduce((total, one) => total + one, 0);
        if (sum > MOST_SHIFT) moved.push(`${address} at ${size.width}: ${sum.toFixed(3)}`);
      }
    }
    expect(moved).toEqual([]);
    await station.stop();
  },
  600_000,
);
