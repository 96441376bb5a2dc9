import { AsyncLocalStorage } from 'node:async_hooks';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as after } from 'node:timers/promises';
import { gunzipSync } from 'node:zlib';
import Database from 'better-sqlite3';
import { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { migrateToLatest } from '../../src-main/casebook/migrate.ts';
import { connectTo } from '../../src-main/casebook/postgres/connection.ts';
import { PostgresCasebook } from '../../src-main/casebook/postgres/postgres-casebook.ts';
import { postgresMigrations } from '../../src-main/casebook/postgres/postgres-migrations.ts';
import { hasPostgres, orWhyNot } from '../postgres/database.ts';
import { serverFolder, serverIn, type Server } from '../postgres/server.ts';
import { temporaryFolder } from '../temporary-folder.ts';

/** As the program of 26 November 2026 wrote it in a file: 146 cases, and the form of that day. */
const OLD = gunzipSync(
  readFileSync(path.join(import.meta.dirname, '..', 'casebook', 'fixtures', 'casebook-2026-11-26.sqlite.gz')),
);
const CASES = 146;
const ALL = Object.keys(postgresMigrations).length;
/** Tables of that day, those that others name first. */
const TABLES = ['printers', 'spools', 'cases', 'case_events', 'case_causes'];

let made = 0;

async function clientOf(server: Server, database: string): Promise<Client> {
  const client = new Client({ connectionString: server.address(database) });
  // Told when the server is stopped under it.
  client.on('error', () => undefined);
  await client.connect();
  return client;
}

/** A database in the form of 26 November, with that day's cases. */
async function oldCasebook(server: Server): Promise<string> {
  const name = `old_${++made}`;
  const administrator = await clientOf(server, 'postgres');
  await administrator.query(`create database ${name} template template0`);
  await administrator.end();
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  writeFileSync(file, OLD);
  const old = new Database(file);
  const done = old.prepare<[], { name: string }>('select name from kysely_migration').all();
  const thatDays = new Set(done.map((one) => one.name));
  const { db } = connectTo(server.address(name), new AsyncLocalStorage());
  await migrateToLatest(
    db,
    Object.fromEntries(Object.entries(postgresMigrations).filter(([one]) => thatDays.has(one))),
  );
  await db.destroy();
  const client = await clientOf(server, name);
  await client.query('begin');
  for (const table of TABLES) {
    const rows = old.prepare<[], Record<string, unknown>>(`select * from ${table}`).all();
    for (const row of rows) {
      const columns = Object.keys(row);
      await client.query(
        `insert into ${table} (${columns.join(', ')}) values (${columns.map((_, i) => `$${i + 1}`).join(', ')})`,
        Object.values(row),
      );
    }
  }
  await client.query('commit');
  await client.end();
  old.close();
  return name;
}

interface Held {
  readonly events: readonly unknown[];
  readonly migrations: number;
}

async function heldIn(server: Server, database: string): Promise<Held> {
  const client = await clientOf(server, database);
  const events = await client.query(
    'select case_id, seq, at, event_json from case_events order by case_id collate "C", seq',
  );
  const migrations = await client.query('select name from kysely_migration');
  await client.end();
  return { events: events.rows, migrations: migrations.rows.length };
}

/** Starts the program on it, and lets its migration come as far as the table that somebody else holds. */
async function startedUpTo(server: Server, database: string, table: string) {
  const holder = await clientOf(server, database);
  await holder.query(`begin; lock table ${table} in row exclusive mode`);
  const casebook = new PostgresCasebook(server.address(database), {
    now: () => new Date(),
    dumpFolder: null,
  });
  onTestFinished(() => casebook.close());
  const opening = casebook.open();
  const watcher = await clientOf(server, database);
  let waiting: number | undefined;
  while (waiting === undefined) {
    const { rows } = await watcher.query<{ pid: number }>(
      `select pid from pg_stat_activity
       where datname = current_database() and wait_event_type = 'Lock' and query not like '%pg_advisory%'`,
    );
    waiting = rows[0]?.pid;
    await after(20);
  }
  return { casebook, opening, holder, watcher, pid: waiting };
}

async function expectAllThere(server: Server, database: string, casebook: PostgresCasebook, before: Held) {
  await casebook.open();
  // It looks again by itself as well: the other look may be under way.
  await expect.poll(() => (casebook.isOpen ? '' : casebook.problem)).toBe('');
  const counted = await casebook.db
    .selectFrom('cases')
    .select(({ fn }) => fn.countAll().as('n'))
    .executeTakeFirst();
  expect(Number(counted?.n)).toBe(CASES);
  expect(await heldIn(server, database)).toEqual({ ...before, migrations: ALL });
  await casebook.close();
}

describe.skipIf(!hasPostgres())(orWhyNot('a migration in PostgreSQL that is cut off'), () => {
  // Not the server of the other tests: this one is stopped, and writes through to the disk as a real one does.
  let server: Server;
  beforeAll(() => {
    server = serverIn(serverFolder(), true);
    server.start();
  });
  afterAll(() => server.remove());

  it.each(['spools', 'cases', 'case_causes'])(
    'with its session ended at %s is taken back whole, said in words, and done at the next start',
    async (table) => {
      const database = await oldCasebook(server);
      const before = await heldIn(server, database);
      expect([before.migrations < ALL, before.events.length > CASES]).toEqual([true, true]);
      const { casebook, opening, holder, watcher, pid } = await startedUpTo(server, database, table);
      await watcher.query('select pg_terminate_backend($1)', [pid]);
      await opening;
      expect(casebook.isOpen).toBe(false);
      expect(casebook.problem).toMatch(/is not there: .*Nothing can be kept until it is back/);
      expect(await heldIn(server, database)).toEqual(before);
      await holder.end();
      await watcher.end();
      await expectAllThere(server, database, casebook, before);
    },
  );

  it('with the power of its server is taken back whole, said in words, and done once that is back', async () => {
    const database = await oldCasebook(server);
    const before = await heldIn(server, database);
    const { casebook, opening } = await startedUpTo(server, database, 'cases');
    server.stop('immediate');
    await opening;
    expect(casebook.isOpen).toBe(false);
    expect(casebook.problem).toMatch(/is not there: .*Nothing can be kept until it is back/);
    server.start();
    await expectAllThere(server, database, casebook, before);
  });
});
