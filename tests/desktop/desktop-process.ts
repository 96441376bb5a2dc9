import { spawn } from 'node:child_process';
import { createServer } from 'node:net';
import path from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import { onTestFinished } from 'vitest';
import { ended } from '../processes/ended.ts';

const ROOT = path.join(import.meta.dirname, '..', '..');
const START_LIMIT_MS = 180_000;
/** What the window may take over one step where many tests share a machine. */
const PATIENCE_MS = 120_000;

/** The built desktop bundles (main, preload, renderer) run over the stand-in, with a hand on the stand-in's browser. */
export interface DesktopProcess {
  readonly page: Page;
  output(): string;
  killAtOnce(): Promise<void>;
  stop(): Promise<void>;
}

export async function startDesktopProcess(
  casebookFile: string,
  userData: string,
  /** Where the program lies, and what the stand-in is told beside. */
  { folder = ROOT, ...told }: Readonly<Record<string, string>> = {},
): Promise<DesktopProcess> {
  const port = await freePort();
  const child = spawn(
    process.execPath,
    [
      '--import',
      path.join(ROOT, 'tests', 'desktop', 'stand-in', 'register.ts'),
      path.join(ROOT, 'out', 'main', 'index.js'),
    ],
    {
      cwd: folder,
      env: {
        ...process.env,
        ...told,
        BEADWRIGHT_CASEBOOK: casebookFile,
        STAND_IN_USER_DATA: userData,
        STAND_IN_DEBUGGING_PORT: String(port),
      },
      stdio: ['ignore', 'pipe', 'pipe'],
    },
  );
  // Also when the test fails half-way: no process outlives its test.
  onTestFinished(() => ended(child, 'SIGKILL'));
  let printed = '';
  child.stderr.on('data', (chunk: Buffer) => (printed += chunk.toString()));
  await new Promise<void>((resolve, reject) => {
    const limit = setTimeout(
      () => reject(new Error(`the desktop did not start: ${printed}`)),
      START_LIMIT_MS,
    );
    child.on('exit', (code) => reject(new Error(`the desktop ended with ${code}: ${printed}`)));
    child.stdout.on('data', (chunk: Buffer) => {
      printed += chunk.toString();
      if (!printed.includes('stand-in ready')) return;
      clearTimeout(limit);
      resolve();
    });
  });
  const browser: Browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
  const page = browser.contexts()[0]?.pages()[0];
  if (!page) throw new Error('the desktop has no window');
  page.setDefaultTimeout(PATIENCE_MS);
  return {
    page,
    output: () => printed,
    killAtOnce: async () => {
      // The stand-in's browser is the child's child: it goes with its window.
      await browser.close();
      await ended(child, 'SIGKILL');
    },
    stop: () => ended(child, 'SIGTERM'),
  };
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() =>
        address !== null && typeof address === 'object'
          ? resolve(address.port)
          : reject(new Error('no port')),
      );
    });
  });
}
