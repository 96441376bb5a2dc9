import { sql } from 'kysely';
import type { CasebookDb, PhotoKeeper } from '../casebook.ts';
import {
  insertRows,
  MOVED_TABLES,
  ROWS_AT_ONCE,
  rowInWords,
  rowsAfter,
  sumOf,
  type Row,
  type TableName,
} from './moved-tables.ts';

/** Where a casebook is moved from. Nobody else works with it meanwhile, and it stays as it is. */
export interface MoveSource {
  readonly place: string;
  readonly db: CasebookDb;
  readonly photos: PhotoKeeper;
  close(): Promise<void>;
}

/** Where it is moved to: nobody opens what is there until `finish`. */
export interface MoveTarget extends MoveSource {
  /** All of it is there and was compared: from now on it is a casebook. */
  finish(): Promise<void>;
}

export interface Moved {
  readonly rows: number;
  readonly cases: number;
  readonly photos: number;
}

/**
 * Copies all of a casebook and compares both ends row by row. Cut short, it goes on where it was when it is begun again: what
 * is there already is held against the source, and what does not agree with it is copied anew. `onLot` hears how far it is.
 */
export async function moveCasebook(
  from: MoveSource,
  to: MoveTarget,
  onLot: (words: string) => void = () => undefined,
): Promise<Moved> {
  for (const table of MOVED_TABLES) await moveTable(from.db, to.db, table, onLot);
  const photos = await movePhotos(from.photos, to.photos, onLot);
  let rows = 0;
  let cases = 0;
  for (const table of MOVED_TABLES) {
    const [there, here] = [await sumOf(from.db, table), await sumOf(to.db, table)];
    if (there.count !== here.count || there.hash !== here.hash)
      throw new Error(
        `${table}: ${there.count} rows (${there.hash.slice(0, 12)}) in ${from.place}, ${here.count} (${here.hash.slice(0, 12)}) in ${to.place}. Nothing was finished; run it again.`,
      );
    rows += here.count;
    if (table === 'cases') cases = here.count;
    onLot(`${table}: ${here.count} rows, the same on both sides`);
  }
  await to.finish();
  return { rows, cases, photos };
}

async function moveTable(
  from: CasebookDb,
  to: CasebookDb,
  table: TableName,
  onLot: (words: string) => void,
): Promise<void> {
  let last = await lastInCommon(from, to, table);
  if (last === 'different') {
    await emptyFrom(to, table);
    last = null;
  }
  for (;;) {
    const rows: readonly Row[] = await rowsAfter(from, table, last);
    if (rows.length > 0) await insertRows(to, table, rows);
    onLot(`${table}: ${rows.length} rows copied`);
    last = rows.at(-1) ?? null;
    if (rows.length < ROWS_AT_ONCE) return;
  }
}

/** The last row of those that are there already; null where there are none, and "different" where they do not agree with the source. */
async function lastInCommon(
  from: CasebookDb,
  to: CasebookDb,
  table: TableName,
): Promise<Row | null | 'different'> {
  let last: Row | null = null;
  for (;;) {
    const there: readonly Row[] = await rowsAfter(to, table, last);
    if (there.length === 0) return last;
    const own = await rowsAfter(from, table, last);
    if (!there.every((row, index) => rowInWords(row) === rowInWords(own[index] ?? {}))) return 'different';
    last = there.at(-1) ?? null;
    if (there.length < ROWS_AT_ONCE) return last;
  }
}

/** A table and all that may refer to it. */
async function emptyFrom(to: CasebookDb, table: TableName): Promise<void> {
  const later = MOVED_TABLES.slice(MOVED_TABLES.indexOf(table)).reverse();
  await to.transaction().execute(async (trx) => {
    for (const one of later) await sql`delete from ${sql.table(one)}`.execute(trx);
  });
}

/** Photos are known by the hash of what is in them, which is worked out again on both sides. */
async function movePhotos(
  from: PhotoKeeper,
  to: PhotoKeeper,
  onLot: (words: string) => void,
): Promise<number> {
  let count = 0;
  for (const hash of await from.hashes()) {
    const bytes = await from.read(hash);
    // One that is damaged is shown nowhere either.
    if (!bytes) {
      onLot(`photo ${hash.slice(0, 12)}: damaged where it is, and left there`);
      continue;
    }
    if ((await to.read(hash)) === null) await to.keep(bytes);
    if ((await to.read(hash)) === null) throw new Error(`photo ${hash.slice(0, 12)} did not arrive whole`);
    count += 1;
    if (count % ROWS_AT_ONCE === 0) onLot(`${count} photos copied`);
  }
  return count;
}
