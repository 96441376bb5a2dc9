import { existsSync, readdirSync, statSync } from 'node:fs';
import path from 'node:path';

const SOURCES = [
  'src-core',
  'src-main',
  'src-renderer',
  'resources',
  'electron.vite.config.ts',
  'package-lock.json',
];
const BUILT = [
  'out/main/index.js',
  'out/main/station.js',
  'out/main/reasoning.js',
  'out/preload/preload.cjs',
  'out/renderer/index.html',
];

/** Whether any source is newer than the oldest built file, or a built file is missing. */
export function isBuildStale(folder: string): boolean {
  const built = BUILT.map((file) => path.join(folder, file));
  if (!built.every((file) => existsSync(file))) return true;
  const oldestBuilt = Math.min(...built.map((file) => statSync(file).mtimeMs));
  return SOURCES.some((source) => newest(path.join(folder, source)) > oldestBuilt);
}

function newest(file: string): number {
  if (!existsSync(file)) return 0;
  const { mtimeMs } = statSync(file);
  if (!statSync(file).isDirectory()) return mtimeMs;
  return readdirSync(file).reduce((latest, name) => Math.max(latest, newest(path.join(file, name))), mtimeMs);
}
