import { chromium, type Browser, type Page } from 'playwright-core';
import { onTestFinished } from 'vitest';
import { BROWSER_ARGUMENTS, findBrowser } from './find-browser.ts';

/** A real Chromium for one test, closed when the test ends; `more` are arguments of its own. */
export async function openBrowser(more: readonly string[] = []): Promise<Browser> {
  const browser = await chromium.launch({
    executablePath: findBrowser(),
    args: [...BROWSER_ARGUMENTS, ...more],
  });
  onTestFinished(() => browser.close());
  return browser;
}

/** Everything that a page must not do: errors on the console, uncaught errors, violations of the content policy. */
export function complaintsOf(page: Page): string[] {
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => complaints.push(`page: ${error.message}`));
  return complaints;
}
