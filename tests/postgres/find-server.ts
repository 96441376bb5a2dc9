import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';

/** The oldest PostgreSQL that is promised to work. */
const OLDEST = 15;
const WHERE = '/usr/lib/postgresql';

/** Why tests on PostgreSQL are left out, where they are. */
export const NO_POSTGRES = `No PostgreSQL ${OLDEST} on this machine (initdb is neither under ${WHERE} nor in PATH nor in BEADWRIGHT_POSTGRES_BIN): its half of the tests is left out.`;

/** The folder of a server's programs (`initdb`, `postgres`); null where this machine has none that is new enough. */
export function findPostgres(): string | null {
  const named = process.env['BEADWRIGHT_POSTGRES_BIN'];
  if (named) return named;
  const versions = existsSync(WHERE) ? readdirSync(WHERE).map(Number) : [];
  const found = versions
    .filter((version) => version >= OLDEST)
    .sort((a, b) => a - b)
    .map((version) => path.join(WHERE, String(version), 'bin'))
    .concat((process.env['PATH'] ?? '').split(path.delimiter))
    .find((folder) => existsSync(path.join(folder, 'initdb')));
  return found ?? null;
}

/** Whether Debian's can be installed where there is none: as Chromium is. */
export function mayInstallPostgres(): boolean {
  return process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
}

/** The same; installs Debian's where this is root on Debian. */
export function findOrInstallPostgres(): string | null {
  const found = findPostgres();
  if (found !== null || !mayInstallPostgres()) return found;
  try {
    execFileSync('apt-get', ['update'], { stdio: 'ignore' });
    execFileSync('apt-get', ['install', '-y', '--no-install-recommends', 'postgresql'], {
      stdio: 'ignore',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
  } catch {
    // No network, or no such package: left out then, with the reason.
  }
  return findPostgres();
}
