import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ENGINE_SOURCES, engineVersion, hashOfSources } from '../../src-main/bootstrap/engine-version.ts';
import { temporaryFolder } from '../temporary-folder.ts';

const here = path.join(import.meta.dirname, '..', '..');

function sources(text: string): string {
  const folder = temporaryFolder();
  for (const name of ENGINE_SOURCES) mkdirSync(path.join(folder, 'src-core', name), { recursive: true });
  writeFileSync(path.join(folder, 'src-core', 'inference', 'one.ts'), text);
  return folder;
}

describe("the engine's version", () => {
  it('is that of its sources, and the same whenever they are', () => {
    expect(engineVersion(here)).toMatch(/^[0-9a-f]{16}$/);
    expect(engineVersion(here)).toBe(hashOfSources(here));
  });

  it('changes with any line of them, and not with how lines end', () => {
    const version = hashOfSources(sources('const a = 1;\n'));
    expect(hashOfSources(sources('const a = 1;\r\n'))).toBe(version);
    expect(hashOfSources(sources('const a = 2;\n'))).not.toBe(version);
  });

  it('is written into the bundles by the build', () => {
    const config = readFileSync(path.join(here, 'electron.vite.config.ts'), 'utf8');
    expect(config).toContain('__ENGINE_VERSION__: JSON.stringify(hashOfSources(');
  });
});
