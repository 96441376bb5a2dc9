import { rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import path from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { ended } from '../processes/ended.ts';
import { launchStation } from '../processes/launch-station.ts';
import { programWithOwnGuide } from '../processes/program-with-own-guide.ts';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { openBrowser } from './open-browser.ts';

async function openPage() {
  const browser = await openBrowser();
  return browser.newPage();
}

describe('a start that fails has a page of its own, with the way on, and plain words on the terminal', () => {
  it('a faulty guide: which file and line, nothing to strangers; once it is mended "Try again" starts the program', async () => {
    const folder = programWithOwnGuide();
    const broken = path.join(folder, 'knowledge', 'broken.yaml');
    writeFileSync(broken, 'causes: [ <b>');
    const station = await launchStation(
      path.join(folder, 'casebook.sqlite'),
      (child) => onTestFinished(() => ended(child, 'SIGKILL')),
      0,
      path.join(folder, 'src-main', 'station', 'index.ts'),
    );
    await expect.poll(station.output).toMatch(/Beadwright could not start\.\n.*faults.*broken\.yaml/s);
    expect(station.output()).not.toContain('    at ');
    const { origin } = new URL(station.address);
    expect(await (await fetch(origin)).text()).not.toContain('broken.yaml');
    expect((await fetch(`${origin}/try-again`, { method: 'POST', headers: { origin } })).status).toBe(403);
    // A page that is open from before says it, too.
    expect(await station.call('shop:read', {})).toMatchObject({
      ok: false,
      error: { code: 'knowledge-faulty', message: expect.stringContaining('broken.yaml') },
    });

    const page = await openPage();
    await page.goto(station.address);
    await page.getByText(/broken\.yaml/).waitFor();
    await expect.poll(() => page.locator('pre b').count()).toBe(0);
    // The page that says it again is a new one: what stood there before says nothing.
    await Promise.all([page.waitForEvent('load'), page.getByRole('button', { name: 'Try again' }).click()]);
    await page.getByText(/broken\.yaml/).waitFor();
    rmSync(broken);
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.getByRole('heading', { level: 1, name: 'Bench' }).waitFor();
    expect((await station.call('shop:read', {})).ok).toBe(true);
  });

  it('a damaged casebook: its words, and the newest good backup is restored from the page', async () => {
    const file = path.join(temporaryFolder(), 'casebook.sqlite');
    const first = await startStationProcess(file);
    await first.call('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 1 });
    const made = await first.call('backup:make', {});
    const name = made.ok ? made.value.name : '';
    await first.stop();
    writeFileSync(file, 'no casebook at all');

    const station = await startStationProcess(file);
    await expect.poll(station.output).toContain('cannot be read');
    await expect.poll(station.output).toContain(name);
    const page = await openPage();
    await page.goto(station.address);
    await page.getByText(/cannot be read: what is in it is no casebook/).waitFor();
    await page.getByRole('button', { name: 'Try again' }).waitFor();
    await page.getByRole('link', { name: /under Backups/ }).click();
    await page.getByRole('button', { name: 'Restore the newest good backup' }).click();
    await page.getByRole('button', { name: 'Restore it' }).click();
    await expect
      .poll(async () => {
        const shop = await station.call('shop:read', {});
        return shop.ok && shop.value.printers.map(({ label }) => label);
      })
      .toEqual(['Heron']);
  });

  it('another program has the casebook: who, and it is opened once that one is closed', async () => {
    const file = path.join(temporaryFolder(), 'casebook.sqlite');
    const first = await startStationProcess(file);
    const second = await startStationProcess(file);
    const said = new RegExp(`in use by another Beadwright \\(process ${first.pid}\\)`);
    await expect.poll(second.output).toMatch(said);
    const page = await openPage();
    await page.goto(second.address);
    await page.getByText(said).first().waitFor();
    await first.stop();
    await expect
      .poll(
        async () => {
          const again = page.getByRole('button', { name: 'Try again' }).first();
          if (await again.isVisible()) await again.click();
          return page.getByText(said).count();
        },
        { timeout: 60_000, interval: 1000 },
      )
      .toBe(0);
    expect((await second.call('shop:read', {})).ok).toBe(true);
  });

  it('a port that is taken: the next free one with its page, which says so once', async () => {
    const taken = createServer();
    await new Promise<void>((resolve) => taken.listen(0, '127.0.0.1', resolve));
    onTestFinished(() => void taken.close());
    const bound = taken.address();
    const port = bound !== null && typeof bound === 'object' ? bound.port : 0;
    const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'), port);
    await expect.poll(station.output).toContain(`Port ${port} is taken`);
    expect(new URL(station.address).port).not.toBe(String(port));
    const page = await openPage();
    await page.goto(station.address);
    await page.getByText(`Port ${port} is taken`).waitFor();
    await page.getByRole('button', { name: 'Go on here' }).click();
    await page.getByRole('navigation').first().waitFor();
    await page.reload();
    await page.getByRole('navigation').first().waitFor();
    await expect.poll(() => page.getByText(`Port ${port} is taken`).count()).toBe(0);
  });
});
