import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { complaintToCured, findInCasebook } from '../browser/complaint-to-cured.ts';
import { complaintsOf } from '../browser/open-browser.ts';
import { programWithOwnGuide } from '../processes/program-with-own-guide.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { startDesktopProcess, type DesktopProcess } from './desktop-process.ts';

const ROOT = path.join(import.meta.dirname, '..', '..');

/** Hash addresses as a link in the page would set them; a page.goto would leave the app scheme's stand-in. */
const goTo =
  ({ page }: DesktopProcess) =>
  async (hash: string) => {
    await page.evaluate((to) => (window.location.hash = to), `#/${hash}`);
  };

async function showsNothingOfTheHost({ page }: DesktopProcess): Promise<void> {
  const seen = await page.evaluate(() => ({
    require: typeof (window as { require?: unknown }).require,
    process: typeof (window as { process?: unknown }).process,
    bridge: ['case:send', 'followChanges'].every((name) => name in (window.beadwright ?? {})),
    other: Object.keys(window.beadwright ?? {}).some((name) => ['invoke', 'send', 'on'].includes(name)),
  }));
  expect(seen).toEqual({ require: 'undefined', process: 'undefined', bridge: true, other: false });
  const refused = await page.evaluate(() => window.beadwright?.['case:send']({ caseId: 'x' }));
  expect(refused).toMatchObject({ ok: false, error: { code: 'bad-request' } });
  const before = page.url();
  await page.evaluate(() => window.open('https://example.org/'));
  await page.evaluate(() => void (window.location.href = 'https://example.org/'));
  await page.waitForTimeout(500);
  expect(page.url()).toBe(before);
}

/** Hears what was written, and no more once it has turned away. */
async function hearsWhatWasWritten({ page }: DesktopProcess): Promise<void> {
  const heard = await page.evaluate(async () => {
    const changes: unknown[] = [];
    const bridge = window.beadwright;
    if (!bridge) throw new Error('no bridge');
    const heardOne = new Promise<void>((resolve) => {
      const turnAway = bridge.followChanges((change) => {
        changes.push(change);
        turnAway();
        resolve();
      });
    });
    const save = (initials: string) => bridge['shop:save-person']({ initials, role: 'lead' });
    await save('RK');
    await heardOne;
    await save('KB');
    await new Promise((resolve) => setTimeout(resolve, 300));
    return changes;
  });
  expect(heard).toEqual([{ topics: ['shop', 'access'], caseId: null, revision: null }]);
}

describe('the built desktop bundles over the stand-in', () => {
  it('the same case goes from complaint to cured and is in the casebook after the program was killed', async () => {
    const folder = temporaryFolder();
    const file = path.join(folder, 'casebook.sqlite');
    const first = await startDesktopProcess(file, folder);
    const complaints = complaintsOf(first.page);
    await complaintToCured({ page: first.page, goTo: goTo(first) });
    expect(complaints).toEqual([]);
    await first.killAtOnce();

    const second = await startDesktopProcess(file, folder);
    onTestFinished(() => second.stop());
    await findInCasebook({ page: second.page, goTo: goTo(second) });
  }, 180_000);

  // One start for the three: starting costs more than all that is asked here.
  it('gives the page the calls and nothing of Node or Electron, at our address; tells it of changes; keeps the window’s place', async () => {
    const folder = temporaryFolder();
    const desktop = await startDesktopProcess(path.join(folder, 'casebook.sqlite'), folder);
    await showsNothingOfTheHost(desktop);
    await hearsWhatWasWritten(desktop);
    await desktop.stop();
    expect(existsSync(path.join(folder, 'userData', 'window.json'))).toBe(true);
  }, 180_000);

  it('B11: a start that fails is shown in a window and ends, instead of a process that nobody sees', () => {
    const folder = temporaryFolder();
    cpSync(path.join(ROOT, 'package.json'), path.join(folder, 'package.json'));
    mkdirSync(path.join(folder, 'knowledge'));
    cpSync(
      path.join(ROOT, 'knowledge', 'conditions.yaml'),
      path.join(folder, 'knowledge', 'conditions.yaml'),
    );
    writeFileSync(path.join(folder, 'knowledge', 'broken.yaml'), 'causes: [');
    const failed = spawnSync(
      process.execPath,
      [
        '--import',
        path.join(ROOT, 'tests', 'desktop', 'stand-in', 'register.ts'),
        path.join(ROOT, 'out', 'main', 'index.js'),
      ],
      {
        cwd: folder,
        encoding: 'utf8',
        env: {
          ...process.env,
          BEADWRIGHT_CASEBOOK: path.join(folder, 'casebook.sqlite'),
          STAND_IN_USER_DATA: folder,
        },
        timeout: 60_000,
      },
    );
    expect(failed.status).toBe(1);
    expect(failed.stdout).toMatch(/stand-in message box: Beadwright could not start\..*broken\.yaml/s);
    expect(failed.stdout).toContain('[Try again] [Quit]');
  }, 90_000);

  it('after a faulty guide was mended, "Try again" in that window starts the program', async () => {
    const folder = programWithOwnGuide();
    const broken = path.join(folder, 'knowledge', 'broken.yaml');
    writeFileSync(broken, 'causes: [');
    const desktop = await startDesktopProcess(path.join(folder, 'casebook.sqlite'), temporaryFolder(), {
      folder,
      STAND_IN_ANSWERS: '0',
      STAND_IN_FAULTY_FILE: broken,
    });
    onTestFinished(() => desktop.stop());
    await desktop.page.getByRole('heading', { level: 1, name: 'Bench' }).waitFor();
    expect(desktop.output()).toContain('stand-in message box: Beadwright could not start.');
  }, 180_000);

  it('a second start ends by itself: one instance holds the casebook', () => {
    const folder = temporaryFolder();
    const second = spawnSync(
      process.execPath,
      [
        '--import',
        path.join(ROOT, 'tests', 'desktop', 'stand-in', 'register.ts'),
        path.join(ROOT, 'out', 'main', 'index.js'),
      ],
      {
        cwd: ROOT,
        env: {
          ...process.env,
          BEADWRIGHT_CASEBOOK: path.join(folder, 'casebook.sqlite'),
          STAND_IN_USER_DATA: folder,
          STAND_IN_IS_SECOND: '1',
        },
        timeout: 20_000,
      },
    );
    expect(second.status).toBe(0);
    expect(existsSync(path.join(folder, 'casebook.sqlite'))).toBe(false);
  });
});
