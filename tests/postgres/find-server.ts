import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';

/** The oldest PostgreSQL that is promised to work. */
const OLDEST = 15;
const WHERE = '/usr/lib/postgresql';

/** The folder of a server's programs (`initdb`, `postgres`); null where this machine has none that is new enough. */
export function findPostgres(): string | null {
  const named = process.env['BEADWRIGHT_POSTGRES_BIN'];
  if (named) return named;
  const versions = existsSync(WHERE)
    ? readdirSync(WHERE)
        .map(Number)
        .filter((one) => one >= OLDEST)
    : [];
  const found = versions
    .sort((a, b) => a - b)
    .map((version) => path.join(WHERE, String(version), 'bin'))
    .concat((process.env['PATH'] ?? '').split(path.delimiter))
    .find((folder) => existsSync(path.join(folder, 'initdb')));
  return found ?? null;
}

/** Why tests on PostgreSQL are left out, where they are. */
export const NO_POSTGRES =
  'No PostgreSQL 15 on this machine (initdb is neither under /usr/lib/postgresql nor in PATH): its half of the tests is left out.';
