import { cpSync, symlinkSync } from 'node:fs';
import path from 'node:path';
import { temporaryFolder } from '../temporary-folder.ts';

const ROOT = path.join(import.meta.dirname, '..', '..');

/** A whole program, with its build, in a folder of its own whose guide may be damaged. */
export function programWithOwnGuide(): string {
  const folder = temporaryFolder();
  for (const name of ['out', 'node_modules', 'resources'])
    symlinkSync(path.join(ROOT, name), path.join(folder, name));
  cpSync(path.join(ROOT, 'package.json'), path.join(folder, 'package.json'));
  for (const name of ['src-main', 'src-core', 'knowledge'])
    cpSync(path.join(ROOT, name), path.join(folder, name), { recursive: true });
  return folder;
}
