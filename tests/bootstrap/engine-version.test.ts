import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ENGINE_SOURCES, engineVersion, hashOfSources } from '../../src-main/bootstrap/engine-version.ts';
import { temporaryFolder } from '../temporary-folder.ts';

const here = path.join(import.meta.dirname, '..', '..');
const core = path.join(here, 'src-core');

function sources(text: string): string {
  const folder = temporaryFolder();
  for (const name of ENGINE_SOURCES) mkdirSync(path.join(folder, 'src-core', name), { recursive: true });
  writeFileSync(path.join(folder, 'src-core', 'inference', 'one.ts'), text);
  return folder;
}

/** Folders of the core that a file takes code from, itself and by way of others. */
function foldersReached(from: string): string[] {
  const seen = new Set<string>();
  const visit = (file: string): void => {
    if (seen.has(file)) return;
    seen.add(file);
    const code = readFileSync(file, 'utf8');
    for (const [, target = ''] of code.matchAll(
      /^(?:import|export)\s+(?!type\b)[^'"]*?from\s+'(\.[^']+)'/gms,
    ))
      visit(path.join(path.dirname(file), target));
  };
  visit(from);
  return [...new Set([...seen].map((file) => path.relative(core, file).split(path.sep)[0] ?? ''))].sort();
}

describe("the engine's version", () => {
  it('follows from every folder that a step of a case takes code from', () => {
    expect(foldersReached(path.join(core, 'session', 'advance.ts'))).toEqual([...ENGINE_SOURCES].sort());
  });

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
