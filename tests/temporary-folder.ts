import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { onTestFinished } from 'vitest';

/** A folder of its own for one test, removed when the test ends. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
