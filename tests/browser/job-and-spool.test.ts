import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';
import { openMore } from './open-more.ts';

/** Twelve layers of a square through 0.8 mm: 6 mm of filament over 60 mm at 60 mm/s is 14.4 mm³/s. */
const JOB = [
  'M140 S100\nM104 S245\nG90\nM83',
  ...Array.from(
    { length: 12 },
    (_, i) =>
      `G0 X0 Y0 Z${(0.4 * (i + 1)).toFixed(1)} F9000\nG1 X60 E6 F3600\nG1 Y60 E6\nG1 X0 E6\nG1 Y0 E6\nG1 E-1 F2400\nG1 E1`,
  ),
  'M104 S0\n',
].join('\n');

it('a spool picked from the shelf and a job file dropped fill in the case with reasons, and drying comes with numbers for the spool', async () => {
  const folder = temporaryFolder();
  const station = await startStationProcess(path.join(folder, 'casebook.sqlite'));
  onTestFinished(() => station.stop());
  const opened = new Date(Date.now() - 60 * 24 * 3_600_000).toISOString();
  await station.call('shop:save-spool', {
    label: 'A-1 black',
    polymer: 'abs',
    storage: 'open',
    openedAt: opened,
  });
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const complaints = complaintsOf(page);
  await page.goto(`${station.address}#/intake`);
  await page.getByLabel('Search what is wrong').fill('popping');
  await page.getByRole('checkbox', { name: 'Popping or spitting while loading' }).check();
  await page
    .getByRole('group', { name: /^How bad is it/ })
    .getByRole('button', { name: 'Heavy' })
    .click();
  await page.getByRole('radio', { name: /^A-1 black/ }).check();
  const file = path.join(folder, 'bracket.gcode');
  writeFileSync(file, JOB);
  await page.locator('input[type=file]').setInputFiles(file);
  await page.getByRole('heading', { name: 'bracket.gcode' }).waitFor();
  await page.getByText('95 % of the time below').waitFor();
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await page.getByRole('button', { name: 'None of these' }).click();

  await page.getByRole('heading', { name: 'Likely causes' }).waitFor();
  await page.getByText(/^Known:/).click();
  await page.getByText('14.4 mm³/s', { exact: true }).waitFor();
  await page.getByText(/Worked out from where the spool has been/).waitFor();
  await page.getByText(/The job prints at 245 °C/).waitFor();

  await openMore(page);
  await page.getByRole('button', { name: /^What to do now/ }).click();
  await page.getByText('What to do now', { exact: true }).waitFor();
  // Once the remedies are there it is seen whether this one lies behind "more".
  await page
    .getByRole('button', { name: /^Show how/ })
    .first()
    .waitFor();
  const dry = page.getByRole('button', { name: /^Show how\s*: Dry the spool$/ });
  const more = page.getByRole('button', { name: /^Show \d+ more/ }).first();
  await dry.or(more).first().waitFor();
  if (!(await dry.isVisible())) await more.click();
  await dry.click();
  await page.getByText(/worked out for this spool/).waitFor();
  await page.getByRole('link', { name: 'The drying plan of A-1 black' }).click();
  await page.getByRole('heading', { name: 'Water in it now' }).waitFor();
  await page.getByRole('heading', { name: 'Drying it' }).waitFor();
  expect(complaints).toEqual([]);
});
