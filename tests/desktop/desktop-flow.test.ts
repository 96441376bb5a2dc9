import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { complaintToCured, findInCasebook } from '../browser/complaint-to-cured.ts';
import { complaintsOf } from '../browser/open-browser.ts';
import { isShown, standsStill } from '../browser/go.ts';
import { programWithOwnGuide } from '../processes/program-with-own-guide.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { startDesktopProcess, type DesktopProcess } from './desktop-process.ts';

const ROOT = path.join(import.meta.dirname, '..', '..');

/** Hash addresses as a link in the page would set them; a page.goto would leave the app scheme's stand-in. */
const goTo =
  ({ page }: DesktopProcess) =>
  async (hash: string) => {
    await standsStill(page);
    await page.evaluate((to) => (window.location.hash = to), `#/${hash}`);
    await isShown(page);
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

/** Width and height of a PDF's first sheet, in points. */
function mediaBoxOf(file: string): readonly number[] {
  const pdf = readFileSync(file, 'latin1');
  expect(pdf.startsWith('%PDF-')).toBe(true);
  const [, width, height] = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/.exec(pdf) ?? [];
  return [Number(width), Number(height)];
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

  it('saves a report and the screen as PDF where somebody says, and nothing where they think better of it', async () => {
    const folder = temporaryFolder();
    const desktop = await startDesktopProcess(path.join(folder, 'casebook.sqlite'), folder, {
      STAND_IN_SAVE_INTO: folder,
    });
    onTestFinished(() => desktop.stop());
    const { page } = desktop;
    const complaints = complaintsOf(page);
    const printerId = await page.evaluate(async () => {
      const reply = (await window.beadwright?.['shop:save-printer']({
        label: 'Heron',
        conditions: {},
        printHours: 10,
      })) as { value: { printers: { id: string }[] } };
      return reply.value.printers[0]?.id ?? '';
    });
    await goTo(desktop)(`printer/${printerId}`);
    await page.getByRole('button', { name: 'Report of this printer’s life' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.getByRole('radio', { name: 'Letter' }).check();
    await sheet.getByRole('button', { name: 'Save as PDF' }).click();
    const file = path.join(folder, 'beadwright-printer-heron.pdf');
    await sheet.getByText(file).waitFor();
    // Letter, 612 by 792 points (ISO 216 has no such sheet), with its text in it.
    expect(mediaBoxOf(file)).toEqual([612, 792]);
    await sheet.getByRole('button', { name: 'Close' }).click();
    await goTo(desktop)('meeting');
    await page.getByRole('button', { name: 'Save as PDF' }).click();
    await page.getByText(path.join(folder, 'beadwright-monday.pdf')).waitFor();
    // A4 is 210 by 297 mm: 595.3 by 841.9 points of 1/72 inch.
    const [width = 0, height = 0] = mediaBoxOf(path.join(folder, 'beadwright-monday.pdf'));
    expect(Math.abs(width - 595.3)).toBeLessThan(1);
    expect(Math.abs(height - 841.9)).toBeLessThan(1.2);
    expect(readdirSync(folder).filter((one) => one.endsWith('.part'))).toEqual([]);
    // A folder that takes no file: said in words, and nothing is left behind.
    rmSync(file);
    mkdirSync(file);
    writeFileSync(path.join(file, 'in the way'), '');
    const refused = await page.evaluate(
      (id) =>
        window.beadwright?.['report:save-pdf']({
          what: { kind: 'report', about: { kind: 'printer', printerId: id } },
          paper: 'A4',
        }),
      printerId,
    );
    expect(refused).toMatchObject({ ok: false, error: { code: 'refused' } });
    expect(JSON.stringify(refused)).toContain('could not be written');
    expect(complaints).toEqual([]);
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
        timeout: 150_000,
      },
    );
    expect(failed.status).toBe(1);
    expect(failed.stdout).toMatch(/stand-in message box: Beadwright could not start\..*broken\.yaml/s);
    expect(failed.stdout).toContain('[Try again] [Quit]');
  }, 180_000);

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
        timeout: 150_000,
      },
    );
    expect(second.status).toBe(0);
    expect(existsSync(path.join(folder, 'casebook.sqlite'))).toBe(false);
  }, 180_000);
});
