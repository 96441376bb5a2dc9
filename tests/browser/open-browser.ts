import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { onTestFinished } from 'vitest';
import { BROWSER_ARGUMENTS, findBrowser } from './find-browser.ts';

/** What a test does with a browser: each window it opens has nothing kept from any other. */
export type Windows = Pick<Browser, 'newContext' | 'newPage'>;

let launched: Promise<Browser> | undefined;

/**
 * The Chromium of this worker. Its files take turns in one process (`isolate: false` in `vitest.config.ts`), as a start of the
 * browser costs more than many a test; it ends with the worker. One that has died is started anew.
 */
export async function workersBrowser(): Promise<Browser> {
  const running = await launched;
  if (running?.isConnected()) return running;
  launched = chromium.launch({ executablePath: findBrowser(), args: BROWSER_ARGUMENTS });
  return launched;
}

/**
 * A real Chromium for one test: all windows opened through it are closed when the test ends. With arguments of its own it is a
 * browser of its own.
 */
export async function openBrowser(more: readonly string[] = []): Promise<Windows> {
  if (more.length > 0) {
    const own = await chromium.launch({
      executablePath: findBrowser(),
      args: [...BROWSER_ARGUMENTS, ...more],
    });
    onTestFinished(() => own.close());
    return own;
  }
  const browser = await workersBrowser();
  const contexts: BrowserContext[] = [];
  onTestFinished(async () => {
    await Promise.all(contexts.map((context) => context.close()));
  });
  const newContext: Windows['newContext'] = async (options) => {
    const context = await browser.newContext(options);
    contexts.push(context);
    return context;
  };
  return { newContext, newPage: async (options) => (await newContext(options)).newPage() };
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
