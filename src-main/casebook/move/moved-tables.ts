import { createHash } from 'node:crypto';
import { sql } from 'kysely';
import type { CasebookDb } from '../casebook.ts';
import { withoutNul } from '../postgres/without-nul.ts';
import type { Tables } from '../tables.ts';

export type TableName = keyof Tables;
export type Row = Readonly<Record<string, string | number | null>>;

/** Rows that are looked at or written at a time. */
export const ROWS_AT_ONCE = 200;

/** Every table with the columns that its rows are known by, in an order in which none refers to one that comes later. */
const KEYS: Readonly<Record<TableName, readonly [string, string?]>> = {
  printers: ['id'],
  spools: ['id'],
  people: ['id'],
  guides: ['version'],
  shop_settings: ['name'],
  hour_readings: ['printer_id', 'at'],
  spool_events: ['spool_id', 'seq'],
  maintenance_events: ['printer_id', 'seq'],
  cases: ['id'],
  case_events: ['case_id', 'seq'],
  case_causes: ['case_id', 'position'],
  case_steps: ['case_id'],
  case_rankings: ['case_id', 'seq'],
  case_conclusions: ['case_id'],
  actions: ['id'],
  action_events: ['action_id', 'seq'],
  training_results: ['id'],
  devices: ['id'],
  person_pins: ['person_id'],
  audit_entries: ['id'],
  imports: ['id'],
  import_cases: ['case_id'],
  binned_cases: ['case_id'],
  ballots: ['id'],
  ballot_votes: ['ballot_id', 'voter'],
  join_codes: ['code_hash'],
  door_tries: ['door'],
};

export const MOVED_TABLES = Object.keys(KEYS) as readonly TableName[];

/** Rows that come after this one, in the order of their keys, as a database can keep them. */
export async function rowsAfter(db: CasebookDb, table: TableName, last: Row | null): Promise<readonly Row[]> {
  const [first, second] = KEYS[table];
  const order = second === undefined ? [first] : [first, second];
  const { rows } = await sql<Row>`
    select * from ${sql.table(table)}
    where ${last === null ? sql`1 = 1` : isAfter(last, first, second)}
    order by ${sql.join(order.map((column) => sql.ref(column)))} limit ${sql.lit(ROWS_AT_ONCE)}`.execute(db);
  return rows.map(
    (row) => Object.fromEntries(Object.entries(row).map(([name, cell]) => [name, withoutNul(cell)])) as Row,
  );
}

function isAfter(last: Row, first: string, second: string | undefined) {
  const [a, b] = [sql.ref(first), second === undefined ? null : sql.ref(second)];
  return b === null || second === undefined
    ? sql`${a} > ${last[first]}`
    : sql`(${a} > ${last[first]} or (${a} = ${last[first]} and ${b} > ${last[second]}))`;
}

export async function insertRows(db: CasebookDb, table: TableName, rows: readonly Row[]): Promise<void> {
  const columns = Object.keys(rows[0] ?? {});
  const values = rows.map((row) => sql`(${sql.join(columns.map((column) => row[column] ?? null))})`);
  await sql`insert into ${sql.table(table)} (${sql.join(columns.map((column) => sql.ref(column)))})
    values ${sql.join(values)}`.execute(db);
}

/** A row's cells by the names of their columns: engines may hand them out in another order. */
export function rowInWords(row: Row): string {
  return JSON.stringify(Object.entries(row).sort(([a], [b]) => (a < b ? -1 : 1)));
}

export interface Sum {
  readonly count: number;
  /** SHA-256 of all rows in order. */
  readonly hash: string;
}

export async function sumOf(db: CasebookDb, table: TableName): Promise<Sum> {
  const hash = createHash('sha256');
  let count = 0;
  let last: Row | null = null;
  for (;;) {
    const rows: readonly Row[] = await rowsAfter(db, table, last);
    for (const row of rows) hash.update(`${rowInWords(row)}\n`);
    count += rows.length;
    last = rows.at(-1) ?? null;
    if (rows.length < ROWS_AT_ONCE) return { count, hash: hash.digest('hex') };
  }
}
