import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

declare const __ENGINE_VERSION__: string | undefined;

/** What the numbers and the flow of a case follow from, beside the guide: all that `session/advance.ts` imports. */
export const ENGINE_SOURCES = [
  'inference',
  'planning',
  'session',
  'knowledge',
  'moisture',
  'flow',
  'learning',
  'numerics',
  'statistics',
  'words',
  'contract',
];

/**
 * Version of whatever a case is reasoned with: a hash of its sources, so that what was kept under other code is never handed
 * out. The build writes it into the bundles; run from the sources it is worked out from them.
 */
export function engineVersion(folder: string): string {
  return typeof __ENGINE_VERSION__ === 'string' ? __ENGINE_VERSION__ : hashOfSources(folder);
}

export function hashOfSources(folder: string): string {
  const hash = createHash('sha256');
  for (const source of ENGINE_SOURCES) {
    const from = path.join(folder, 'src-core', source);
    const files = readdirSync(from, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.ts'),
    );
    for (const file of files.sort()) {
      hash.update(`${source}/${file.replaceAll(path.sep, '/')}\0`);
      hash.update(readFileSync(path.join(from, file), 'utf8').replaceAll('\r\n', '\n'));
    }
  }
  return hash.digest('hex').slice(0, 16);
}
