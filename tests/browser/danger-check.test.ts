import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { openBrowser } from './open-browser.ts';

it('a tap that was meant for what stood there before does not answer the danger check', async () => {
  const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
  onTestFinished(() => station.stop());
  const opened = await station.call('case:open', {
    complaints: [{ observation: 'popping-while-loading', value: 'slight' }],
  });
  if (!opened.ok) throw new Error(opened.error.message);
  const { caseId } = opened.value;
  const page = await (await openBrowser()).newPage({ viewport: { width: 390, height: 844 } });
  // The second tap of two falls in the moment in which the answer is there.
  await page.addInitScript(() => {
    new MutationObserver((_, observer) => {
      const none = document.querySelector<HTMLButtonElement>('.task button.large');
      if (!none) return;
      observer.disconnect();
      none.click();
      Object.assign(window, { tapped: true });
    }).observe(document, { childList: true, subtree: true });
  });
  await page.goto(`${station.address}#/case/${caseId}`);
  await expect.poll(() => page.evaluate('window.tapped')).toBe(true);
  await page.waitForTimeout(300);
  const view = await station.call('case:view', { caseId });
  expect(view.ok && view.value.state).toBe('stop-now');
  await page.getByRole('button', { name: 'None of these' }).click();
  await page.getByRole('heading', { name: 'Likely causes' }).waitFor();
});
