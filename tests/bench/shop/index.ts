import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { findPostgres, NO_POSTGRES } from '../../postgres/find-server.ts';
import { serverFolder, serverIn } from '../../postgres/server.ts';
import { runShop, type ShopFigures } from './run-shop.ts';

// `npm run bench -- shop [--minutes 1] [--tablets 50] [--pause 5]`: two stations on PostgreSQL beside one on a file.
const { values } = parseArgs({
  args: process.argv.slice(2).filter((word) => word !== 'shop'),
  options: {
    minutes: { type: 'string', default: '1' },
    tablets: { type: 'string', default: '50' },
    /** Seconds between two answers of a tablet. */
    pause: { type: 'string', default: '5' },
    port: { type: 'string', default: '21400' },
  },
});
const [minutes, tablets, pause, port] = [values.minutes, values.tablets, values.pause, values.port].map(
  Number,
);
if (![minutes, tablets, pause, port].every((one) => Number.isFinite(one)))
  throw new Error('--minutes, --tablets, --pause and --port take numbers');
const seconds = (minutes ?? 1) * 60;
const shared = { tablets: tablets ?? 50, seconds, pauseMs: (pause ?? 5) * 1000, port: port ?? 21_400 };
console.log(
  `${shared.tablets} tablets, an answer every ${pause} s each, ${minutes} min; a kill -9 of a station in between`,
);

const onFile = await inFolder((folder) => runShop({ ...shared, stations: 1, postgres: null, folder }));
print('one station, SQLite', onFile);
if (findPostgres() === null) console.log(NO_POSTGRES);
else {
  const server = serverIn(serverFolder(), true);
  try {
    server.start();
    const onPostgres = await inFolder((folder) =>
      runShop({ ...shared, stations: 2, postgres: { server, address: server.address('postgres') }, folder }),
    );
    print('two stations, PostgreSQL (stopped hard and started in between)', onPostgres);
    const ratio = (of: (figures: ShopFigures) => number) => (of(onPostgres) / of(onFile)).toFixed(2);
    console.log(
      `PostgreSQL to SQLite: p50 ${ratio(({ p50Ms }) => p50Ms)}, p99 ${ratio(({ p99Ms }) => p99Ms)}, answers ${ratio(({ answers }) => answers)}`,
    );
  } finally {
    server.remove();
  }
}

async function inFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-shop-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function print(what: string, figures: ShopFigures): void {
  const { answers, p50Ms, p99Ms, stale, unsure, cases, faults } = figures;
  console.log(
    `${what}: ${answers} answers, p50 ${p50Ms.toFixed(0)} ms, p99 ${p99Ms.toFixed(0)} ms; ${cases} cases, ${stale} told that another was first, ${unsure} without an answer and looked up again; ${faults.length} lost, doubled, out of order or unheard`,
  );
  for (const fault of faults.slice(0, 20)) console.log(`  ${fault}`);
  if (faults.length > 0) process.exitCode = 1;
}
