import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { complaintToCured, findInCasebook } from './complaint-to-cured.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';

it('ABS at 0.8 mm with popping, vapour and bubbles goes from complaint to cured, and is in the casebook after a restart', async () => {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const complaints = complaintsOf(page);

  const first = await startStationProcess(file);
  const goTo = (address: string) => async (hash: string) => void (await page.goto(`${address}#/${hash}`));
  await complaintToCured({ page, goTo: goTo(first.address) });
  expect(complaints).toEqual([]);
  // A page that stands there while its station is away asks for it in vain, and the browser says so on its console.
  await page.goto('about:blank');
  await first.killAtOnce();

  const second = await startStationProcess(file);
  onTestFinished(() => second.stop());
  await findInCasebook({ page, goTo: goTo(second.address) });
  expect(complaints).toEqual([]);
});
