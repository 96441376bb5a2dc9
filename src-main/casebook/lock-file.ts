import { closeSync, mkdirSync, openSync, readFileSync, rmSync, writeSync } from 'node:fs';
import path from 'node:path';

/** Held while one process writes the casebook; SQLite alone does not keep a second host out. */
export interface LockFile {
  release(): void;
}

/** Locks that this process holds: one with its number that it does not hold was left by a dead one of the same number. */
const held = new Set<string>();

/** Takes the lock or names the process that holds it. A lock whose process is gone is taken over. */
export function takeLock(file: string): { ok: true; lock: LockFile } | { ok: false; heldBy: number } {
  // On a first start the folder is not there yet.
  mkdirSync(path.dirname(file), { recursive: true });
  for (let attempt = 0; attempt < 2; attempt++) {
    try {
      const handle = openSync(file, 'wx');
      writeSync(handle, String(process.pid));
      closeSync(handle);
      held.add(file);
      const release = () => {
        held.delete(file);
        rmSync(file, { force: true });
      };
      return { ok: true, lock: { release } };
    } catch (error) {
      if (!isCode(error, 'EEXIST')) throw error;
      const holder = holderOf(file);
      if (holder !== null && (holder === process.pid ? held.has(file) : isAlive(holder)))
        return { ok: false, heldBy: holder };
      rmSync(file, { force: true });
    }
  }
  return { ok: false, heldBy: 0 };
}

function holderOf(file: string): number | null {
  try {
    const pid = Number.parseInt(readFileSync(file, 'utf8'), 10);
    return Number.isInteger(pid) && pid > 0 ? pid : null;
  } catch {
    return null;
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return isCode(error, 'EPERM');
  }
}

function isCode(error: unknown, code: string): boolean {
  return error instanceof Error && 'code' in error && error.code === code;
}
