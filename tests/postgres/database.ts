import { existsSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as after } from 'node:timers/promises';
import { Client } from 'pg';
import { inject, onTestFinished } from 'vitest';
import { PostgresCasebook } from '../../src-main/casebook/postgres/postgres-casebook.ts';
import { TABLE_NAMES } from '../../src-main/casebook/tables.ts';
import { NO_POSTGRES } from './find-server.ts';
import { isFirst, serverIn, type Server } from './server.ts';

/** A database with an empty casebook in it: copying one is quicker than bringing each to today's form. */
const TEMPLATE = 'beadwright_template';
const STARTED_WITHIN_MS = 60_000;

let made = 0;
/** Databases of this worker that an earlier test is done with. */
const free: string[] = [];

/** The address of a database for one test, empty or with an empty casebook in it; it goes when the test ends. */
export async function testDatabase(contents: 'nothing' | 'casebook' = 'casebook'): Promise<string> {
  const server = await running();
  const used = contents === 'casebook' ? free.pop() : undefined;
  if (used !== undefined) {
    onTestFinished(() => emptied(server, used));
    return server.address(used);
  }
  const name = `t_${process.pid}_${++made}`;
  await asAdministrator(
    server,
    contents === 'nothing'
      ? `create database ${name} template template0`
      : `create database ${name} template ${TEMPLATE}`,
  );
  onTestFinished(() => (contents === 'casebook' ? emptied(server, name) : dropped(server, name)));
  return server.address(name);
}

/** Whether there is a server to be had; the run has said why not, and titles say it again (`orWhyNot`). */
export function hasPostgres(): boolean {
  return inject('postgresFolder') !== '';
}

/** A title that says why its tests are left out, where they are. */
export function orWhyNot(title: string): string {
  return hasPostgres() ? title : `${title}, not played: ${NO_POSTGRES}`;
}

async function running(): Promise<Server> {
  const folder = inject('postgresFolder');
  if (folder === '') throw new Error(NO_POSTGRES);
  const server = serverIn(folder);
  const ready = path.join(folder, 'ready');
  if (isFirst(path.join(folder, 'claimed'))) {
    server.start();
    await asAdministrator(server, `create database ${TEMPLATE} template template0`);
    const template = new PostgresCasebook(server.address(TEMPLATE), {
      now: () => new Date(),
      dumpFolder: null,
    });
    await template.open();
    if (!template.isOpen) throw new Error(template.problem);
    await template.close();
    writeFileSync(ready, '');
  }
  for (const began = Date.now(); !existsSync(ready); await after(50))
    if (Date.now() - began > STARTED_WITHIN_MS) throw new Error(`PostgreSQL in ${folder} did not start`);
  return server;
}

/** The end of a test closes its casebook before this. */
async function emptied(server: Server, name: string): Promise<void> {
  const tables = [...TABLE_NAMES, 'photos'].map((table) => `delete from ${table};`).reverse();
  try {
    await asAdministrator(server, tables.join('\n'), name);
    free.push(name);
  } catch {
    // The test did something to its tables.
    await dropped(server, name);
  }
}

function dropped(server: Server, name: string): Promise<void> {
  return asAdministrator(server, `drop database if exists ${name} with (force)`);
}

async function asAdministrator(server: Server, statement: string, database = 'postgres'): Promise<void> {
  const client = new Client({ connectionString: server.address(database) });
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}
