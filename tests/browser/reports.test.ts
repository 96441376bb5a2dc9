import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { go } from './go.ts';
import { complaintsOf } from './open-browser.ts';
import { sharedStation } from './shared-station.ts';

const open = sharedStation();
/** Width of the text on paper, CSS pixels at 96 a inch: A4 and Letter less the margins of 15 mm. */
const COLUMNS = { A4: ((210 - 30) / 25.4) * 96, Letter: 8.5 * 96 - (30 / 25.4) * 96 };

it('reports of a case, a month and a printer are saved as files that fit both kinds of paper and a telephone', async () => {
  const { station, page, complaints } = await open();
  const loaded = await station.call('demo:load', {});
  if (!loaded.ok) throw new Error(loaded.error.message);
  const closed = await station.call('case:list', { states: ['closed'], limit: 1 });
  const caseId = closed.ok ? (closed.value.rows[0]?.caseId ?? '') : '';
  const offered = [
    { address: `timeline/${caseId}`, button: 'Report of this case', file: /^beadwright-case-\d+\.html$/ },
    { address: 'meeting', button: 'Report of a month', file: /^beadwright-month-\d{4}-\d{2}\.html$/ },
    {
      address: `printer/${loaded.value.printers.find(({ label }) => label === 'Rook')?.id ?? ''}`,
      button: 'Report of this printer’s life',
      file: /^beadwright-printer-rook\.html$/,
    },
  ];
  for (const { address, button, file } of offered) {
    await go(page, `${station.address}#/${address}`);
    await page.getByRole('button', { name: button }).click();
    const sheet = page.getByRole('dialog');
    // What the sheet says instead of saving, if it does, is what the failure should name.
    const refused = sheet.getByRole('alert').textContent();
    const [saved] = await Promise.all([
      Promise.race([
        page.waitForEvent('download'),
        refused.then((words) => Promise.reject(new Error(words ?? 'no document'))),
      ]),
      sheet.getByRole('button', { name: 'Save the document' }).click(),
    ]);
    refused.catch(() => undefined);
    expect(saved.suggestedFilename()).toMatch(file);
    const html = readFileSync(await saved.path(), 'utf8');
    const paper = await page.context().newPage();
    const faults = complaintsOf(paper);
    await paper.setContent(html);
    const overflow = () => paper.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    await paper.setViewportSize({ width: 390, height: 844 });
    expect(await overflow()).toBe(0);
    await paper.emulateMedia({ media: 'print' });
    for (const format of ['A4', 'Letter'] as const) {
      await paper.setViewportSize({ width: Math.floor(COLUMNS[format]), height: 900 });
      expect(await overflow(), `${button} on ${format}`).toBe(0);
      const sheets = (await paper.pdf({ format })).toString('latin1').match(/\/Type\s*\/Page\b/g)?.length;
      expect(sheets).toBeGreaterThan(0);
    }
    expect(faults).toEqual([]);
    await paper.close();
    // The print window gets the document as it is, in the frame that is printed.
    await page.evaluate(() => {
      (window as { printed?: string }).printed = '';
      const watch = new MutationObserver(() => {
        const frame = document.querySelector<HTMLIFrameElement>('.print-frame');
        if (!frame?.contentWindow) return;
        watch.disconnect();
        frame.contentWindow.print = () => {
          const page = frame.contentDocument;
          const ink = page && getComputedStyle(page.querySelector('h1') ?? page.body).marginTop;
          (window as { printed?: string }).printed =
            `${page?.title} ${page?.adoptedStyleSheets.length} ${ink}`;
          frame.contentWindow?.dispatchEvent(new Event('afterprint'));
        };
      });
      watch.observe(document.body, { childList: true });
    });
    await sheet.getByRole('button', { name: 'Print, or save as PDF' }).click();
    await page.waitForFunction(() => (window as { printed?: string }).printed !== '');
    const printed = await page.evaluate(() => (window as { printed?: string }).printed);
    // Its own style sheet holds: its heading has no margin above.
    expect(printed).toMatch(/^.+ 1 0px$/);
    await page.locator('.print-frame').waitFor({ state: 'detached' });
    // A table as well.
    const [table] = await Promise.all([
      page.waitForEvent('download'),
      sheet.getByRole('button', { name: /^CSV/ }).first().click(),
    ]);
    expect(table.suggestedFilename()).toMatch(/\.csv$/);
    await sheet.getByRole('button', { name: 'Close' }).click();
  }
  expect(complaints).toEqual([]);
});
