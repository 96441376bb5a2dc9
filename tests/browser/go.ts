import type { Page } from 'playwright-core';

/**
 * Waits until no sheet's entry is left in the browser's history: one that was just closed takes it out a moment later, and going
 * Back in that moment goes back over that entry only.
 */
export async function standsStill(page: Page): Promise<void> {
  await page.waitForFunction(
    () =>
      document.querySelector('dialog[open]') !== null ||
      (history.state as { overlay?: unknown } | null)?.overlay === undefined,
  );
}

/**
 * Waits until the screen of the address is there. Until its code has come the screen before stays, so that a heading or a button of
 * the same name may still be that one's.
 */
export async function isShown(page: Page): Promise<void> {
  await page.waitForFunction(
    () => document.querySelector('main')?.dataset['address'] === location.hash.replace(/^#\/?/, ''),
  );
}

/** Opens an address once the page stands still (an address opened earlier is dropped by the browser: `ERR_ABORTED`). */
export async function go(page: Page, address: string): Promise<void> {
  await standsStill(page);
  await page.goto(address);
  await isShown(page);
}
