import { spawnSync, type SpawnSyncReturns } from 'node:child_process';
import { chownSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { findPostgres, NO_POSTGRES } from './find-server.ts';

export interface Server {
  /** The address of one of its databases. */
  address(database: string): string;
  start(): void;
  /** "immediate" is what a cut of the power does to its processes; the next start recovers. */
  stop(how?: 'fast' | 'immediate'): void;
  /** Ends it and deletes all of it. */
  remove(): void;
}

const USER = 'beadwright';

/** A folder for a server of one's own, to be given to whoever runs it. */
export function serverFolder(): string {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-pg-'));
  const owner = ownerOf();
  if (owner) chownSync(folder, owner.uid, owner.gid);
  return folder;
}

/**
 * A private server in this folder, on a socket only; it is not started yet. `isSafe` makes it write through to the disk as a real
 * one does; tests that play no cut of the power are quicker without.
 */
export function serverIn(folder: string, isSafe = false): Server {
  const bin = findPostgres();
  if (bin === null) throw new Error(NO_POSTGRES);
  const data = path.join(folder, 'data');
  const control = (...words: string[]) =>
    run(path.join(bin, 'pg_ctl'), ['--pgdata', data, '--silent', '-w', ...words], folder);
  return {
    address: (database) => `postgres://${USER}@/${database}?host=${folder}`,
    start: () => {
      if (!existsSync(data))
        run(
          path.join(bin, 'initdb'),
          ['--pgdata', data, '--username', USER, '--auth', 'trust', '--encoding', 'UTF8', '--no-sync'],
          folder,
        );
      const options = {
        listen_addresses: '',
        unix_socket_directories: folder,
        max_connections: '300',
        shared_buffers: '64MB',
        ...(!isSafe && { fsync: 'off', full_page_writes: 'off' }),
      };
      const said = Object.entries(options).map(([name, value]) => `-c ${name}='${value}'`);
      control('--log', path.join(folder, 'log'), '-o', said.join(' '), 'start');
    },
    stop: (how = 'fast') => {
      if (existsSync(path.join(data, 'postmaster.pid'))) control('-m', how, 'stop');
    },
    remove: () => {
      if (existsSync(path.join(data, 'postmaster.pid'))) control('-m', 'immediate', 'stop');
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** PostgreSQL refuses to run as root: as somebody else then, who has rights nowhere but in that folder. */
function ownerOf(): { readonly uid: number; readonly gid: number } | null {
  if (process.getuid?.() !== 0) return null;
  const people = readFileSync('/etc/passwd', 'utf8').split('\n');
  for (const name of ['postgres', 'nobody']) {
    const [, , uid, gid] = people.find((line) => line.startsWith(`${name}:`))?.split(':') ?? [];
    if (uid && gid) return { uid: Number(uid), gid: Number(gid) };
  }
  throw new Error('root cannot run PostgreSQL, and there is neither a user postgres nor nobody');
}

function run(program: string, words: readonly string[], folder: string): void {
  const owner = ownerOf();
  const done: SpawnSyncReturns<string> = spawnSync(program, words, {
    cwd: folder,
    encoding: 'utf8',
    // The server would keep a pipe open, and this would wait for its end.
    stdio: ['ignore', 'ignore', 'ignore'],
    env: { ...process.env, HOME: folder, LC_ALL: 'C.UTF-8' },
    ...owner,
  });
  if (done.error) throw done.error;
  if (done.status === 0) return;
  const log = path.join(folder, 'log');
  throw new Error(
    `${path.basename(program)} ended with ${done.status}: ${existsSync(log) ? readFileSync(log, 'utf8').slice(-2000) : ''}`,
  );
}

/** A folder that only one of several processes can claim. */
export function isFirst(folder: string): boolean {
  try {
    mkdirSync(folder);
    return true;
  } catch {
    return false;
  }
}
