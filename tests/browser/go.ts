import type { Page } from 'playwright-core';

/**
 * Opens an address once the page stands still. A sheet that was just closed takes its entry out of the browser's history, and that
 * happens a moment later; an address opened in that moment is dropped by the browser (`ERR_ABORTED`).
 */
export async function go(page: Page, address: string): Promise<void> {
  await page.waitForFunction(
    () =>
      document.querySelector('dialog[open]') !== null ||
      (history.state as { overlay?: unknown } | null)?.overlay === undefined,
  );
  await page.goto(address);
}
