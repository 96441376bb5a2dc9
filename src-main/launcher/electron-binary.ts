import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** How long a first start may try to fetch Electron's binary before the station takes over. */
const FETCH_LIMIT_MS = 180_000;

/** Path of Electron's binary, fetched where it is missing and can be had; otherwise null. */
export function electronBinary(folder: string): string | null {
  const present = presentBinary(folder);
  if (present) return present;
  // Electron's package fetches its binary by this script of its own; offline it fails within a second.
  const fetched = spawnSync(process.execPath, [path.join(folder, 'node_modules', 'electron', 'install.js')], {
    stdio: 'ignore',
    timeout: FETCH_LIMIT_MS,
  });
  return fetched.status === 0 ? presentBinary(folder) : null;
}

function presentBinary(folder: string): string | null {
  const home = path.join(folder, 'node_modules', 'electron');
  const pathFile = path.join(home, 'path.txt');
  if (!existsSync(pathFile)) return null;
  const binary = path.join(home, 'dist', readFileSync(pathFile, 'utf8').trim());
  return existsSync(binary) ? binary : null;
}

/** Whether a window could be shown at all. */
export function hasDisplay(environment: NodeJS.ProcessEnv): boolean {
  if (process.platform !== 'linux') return true;
  return Boolean(environment['DISPLAY'] ?? environment['WAYLAND_DISPLAY']);
}
