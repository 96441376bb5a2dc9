import { setTimeout as pause } from 'node:timers/promises';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { onTestFinished } from 'vitest';
import { BROWSER_ARGUMENTS, findBrowser } from './find-browser.ts';

/** What a test does with a browser: each window it opens has nothing kept from any other. */
export type Windows = Pick<Browser, 'newContext' | 'newPage'>;

/** What a page may take over one step where many tests share a machine. */
const PATIENCE_MS = 120_000;

let launched: Promise<Browser> | undefined;

/**
 * The Chromium of this worker. Its files take turns in one process (`isolate: false` in `vitest.config.ts`), as a start of the
 * browser costs more than many a test; it ends with the worker. One that has died is started anew.
 */
export async function workersBrowser(): Promise<Browser> {
  const running = await launched?.catch(() => undefined);
  if (running?.isConnected()) return running;
  launched = chromium.launch({
    executablePath: findBrowser(),
    args: BROWSER_ARGUMENTS,
    timeout: PATIENCE_MS,
  });
  return launched;
}

/** How long each call to the station is held back, ms: `SLOW_CALLS=150` finds the test that looks before the effect is there. */
const SLOW_CALLS_MS = Number(process.env['SLOW_CALLS'] ?? 0);

/** A window with nothing kept from any other, whose calls are slowed where that is asked. */
export async function newWindow(
  browser: Browser,
  options?: Parameters<Browser['newContext']>[0],
): Promise<BrowserContext> {
  const context = await browser.newContext(options);
  context.setDefaultTimeout(PATIENCE_MS);
  if (SLOW_CALLS_MS > 0)
    await context.route(/\/(api|files)\//, async (route) => {
      await pause(SLOW_CALLS_MS);
      await route.continue().catch(() => undefined);
    });
  return context;
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
      timeout: PATIENCE_MS,
    });
    onTestFinished(() => own.close());
    const newContext: Windows['newContext'] = (options) => newWindow(own, options);
    return { newContext, newPage: async (options) => (await newContext(options)).newPage() };
  }
  const browser = await workersBrowser();
  const contexts: BrowserContext[] = [];
  onTestFinished(async () => {
    await Promise.all(contexts.map((context) => context.close()));
  });
  const newContext: Windows['newContext'] = async (options) => {
    const context = await newWindow(browser, options);
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
