import { casebookTrouble } from '../../../src-core/words/en/casebook-trouble.ts';
import { SaidError } from '../../../src-core/words/said-error.ts';
import { AsyncLocalStorage } from 'node:async_hooks';
import { existsSync, renameSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { Kysely } from 'kysely';
import { Client } from 'pg';
import type { CasebookDb } from '../casebook.ts';
import { FileCasebook } from '../file-casebook.ts';
import { takeLock } from '../lock-file.ts';
import { migrateToLatest } from '../migrate.ts';
import { PhotoFolder } from '../photo-folder.ts';
import { clientConfig, connectTo, type Telling } from '../postgres/connection.ts';
import { withoutPassword } from '../postgres/database-address.ts';
import { beginMove, endMove, isMoveUnfinished } from '../postgres/move-mark.ts';
import { PostgresCasebook } from '../postgres/postgres-casebook.ts';
import {
  compareTextByBytes,
  postgresMigrations,
  tablesThere,
  troubleOfForm,
} from '../postgres/postgres-migrations.ts';
import { PostgresPhotos } from '../postgres/postgres-photos.ts';
import { postgresFault } from '../postgres/postgres-trouble.ts';
import { AT_WORK, letGo } from '../postgres/station-notices.ts';
import { makePrivateIfThere, syncToDisk } from '../private-files.ts';
import { CasebookSqliteDialect } from '../sqlite-dialect.ts';
import type { Tables } from '../tables.ts';
import { rowsAfter } from './moved-tables.ts';
import type { MoveSource, MoveTarget } from './move-casebook.ts';

/** A casebook in a file, brought to today's form. Throws in words where it cannot be had. */
export async function sourceInFile(file: string): Promise<MoveSource> {
  if (!existsSync(file)) throw new Error(`There is no casebook at ${file}.`);
  const casebook = new FileCasebook(file, () => new Date());
  await casebook.open();
  if (!casebook.isOpen) throw new Error(casebook.problem);
  return { place: file, db: casebook.db, photos: casebook.photos, close: () => casebook.close() };
}

/** A casebook in a database, brought to today's form, and for nobody else as long as it is moved. Throws in words. */
export async function sourceInDatabase(address: string): Promise<MoveSource> {
  const casebook = new PostgresCasebook(address, { now: () => new Date(), dumpFolder: null });
  await casebook.open();
  const { isOpen, problem } = casebook;
  await casebook.close();
  if (!isOpen) throw new Error(problem);
  return aloneIn(address);
}

/** An empty database, one with an empty casebook, or one into which a move was cut short. Throws in words. */
export async function targetInDatabase(address: string): Promise<MoveTarget> {
  const end = await aloneIn(address);
  try {
    const trouble = await troubleOfForm(end.db, end.place);
    if (trouble !== null) throw new SaidError(trouble);
    if (
      !(await isMoveUnfinished(end.db)) &&
      (await tablesThere(end.db)).has('cases') &&
      (await hasRows(end.db))
    )
      throw new Error(`There is a casebook in ${end.place} already; name another database.`);
    await beginMove(end.db);
    await migrateToLatest(end.db, postgresMigrations);
    await compareTextByBytes(end.db);
  } catch (error) {
    await end.close();
    throw error;
  }
  return { ...end, finish: () => endMove(end.db) };
}

/** A file that is not there yet; what is being moved lies beside its place until all of it is there. Throws in words. */
export async function targetInFile(file: string): Promise<MoveTarget> {
  if (existsSync(file)) throw new Error(`There is a casebook at ${file} already; name another file.`);
  const taken = takeLock(`${file}.lock`);
  if (!taken.ok) throw new Error(`The place ${file} is in use by another Beadwright. Close that one first.`);
  const unfinished = `${file}.moving`;
  const database = new Database(unfinished);
  makePrivateIfThere(unfinished);
  database.pragma('synchronous = FULL');
  database.pragma('foreign_keys = ON');
  const db: CasebookDb = new Kysely<Tables>({ dialect: new CasebookSqliteDialect(database) });
  let isFinished = false;
  const close = async () => {
    if (isFinished) return;
    isFinished = true;
    await db.destroy();
    taken.lock.release();
  };
  try {
    await migrateToLatest(db);
  } catch (error) {
    await close();
    throw error;
  }
  return {
    place: file,
    db,
    photos: new PhotoFolder(file, path.join(path.dirname(file), 'backups')),
    close,
    finish: async () => {
      await db.destroy();
      syncToDisk(unfinished);
      renameSync(unfinished, file);
      syncToDisk(path.dirname(file), true);
      isFinished = true;
      taken.lock.release();
    },
  };
}

/** A database with which no station works, nor can begin to as long as this is open. */
async function aloneIn(address: string): Promise<MoveSource> {
  const place = withoutPassword(address);
  const client = new Client(clientConfig(address));
  client.on('error', () => undefined);
  try {
    await client.connect();
    const { rows } = await client.query<{ isMine: boolean }>(
      `select pg_try_advisory_lock(${AT_WORK}) as "isMine"`,
    );
    if (rows[0]?.isMine !== true) throw new BusyError();
  } catch (error) {
    await client.end().catch(() => undefined);
    throw error instanceof BusyError
      ? new Error(`A station or another move is at work on ${place}: stop it first.`)
      : new SaidError(casebookTrouble.cannotBeUsed({ place, why: postgresFault(error).why }), {
          cause: error,
        });
  }
  const { db } = connectTo(address, new AsyncLocalStorage<Telling>());
  return {
    place,
    db,
    photos: new PostgresPhotos(() => db),
    close: async () => {
      await db.destroy();
      await letGo(client);
      await client.end();
    },
  };
}

class BusyError extends Error {}

async function hasRows(db: CasebookDb): Promise<boolean> {
  for (const table of ['cases', 'printers', 'people', 'spools'] as const)
    if ((await rowsAfter(db, table, null)).length > 0) return true;
  return false;
}
