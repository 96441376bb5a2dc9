import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { openBrowser } from './open-browser.ts';

/** A station of its own with one case, of which the danger signs have not been asked yet. */
async function openedCase() {
  const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
  onTestFinished(() => station.stop());
  const opened = await station.call('case:open', {
    complaints: [{ observation: 'popping-while-loading', value: 'slight' }],
  });
  if (!opened.ok) throw new Error(opened.error.message);
  return { station, ...opened.value };
}

it('a tap that was meant for what stood there before does not answer the danger check', async () => {
  const { station, caseId } = await openedCase();
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

it('a danger sign is not taken back by one tap', async () => {
  const { station, caseId, revision } = await openedCase();
  await station.call('case:send', {
    caseId,
    revision,
    event: { kind: 'danger-answered', present: ['smoke-or-burning-smell'] },
  });
  const stopped = async () => {
    const view = await station.call('case:view', { caseId });
    return view.ok && view.value.stopped !== null;
  };
  expect(await stopped()).toBe(true);
  const page = await (await openBrowser()).newPage({ viewport: { width: 820, height: 1180 } });
  await page.goto(`${station.address}#/case/${caseId}`);
  const undo = page.getByRole('button', { name: 'Undo the last' });
  await undo.click();
  const asked = page.getByRole('dialog', { name: 'Take a danger sign back?' });
  await asked.getByRole('button', { name: 'Leave it as it is' }).click();
  await asked.waitFor({ state: 'detached' });
  expect(await stopped()).toBe(true);
  await undo.click();
  await asked.getByRole('button', { name: 'It was pressed by mistake' }).click();
  await expect.poll(stopped).toBe(false);
});
