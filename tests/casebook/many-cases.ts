import { sql } from 'kysely';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { programInMemory, type TestProgram } from '../operations/program-in-memory.ts';

const complaint = { complaints: [{ observation: 'stringing', value: 'slight' }] };
/** One whole case; with its opening as many events as a case has on average. */
const EVENTS: readonly CaseEvent[] = [
  { kind: 'danger-answered', present: [] },
  { kind: 'noted', text: 'Looked at under the lamp' },
  { kind: 'answered', observation: 'vapour-at-head', value: 'slight' },
  { kind: 'remedy-chosen', remedy: 'dry-the-spool' },
  { kind: 'remedy-done' },
  { kind: 'verified', outcome: 'cured' },
  {
    kind: 'closed',
    causes: [{ cause: 'wet-filament' }],
    practice: null,
    minutesLost: 30,
    gramsScrapped: 5,
    note: '',
  },
];

/**
 * A casebook as years fill it: so many closed cases on one printer, in memory or in a file, whole where `isWhole`, otherwise
 * their rows of the list only. Rows are copied, not played.
 */
export async function withManyCases(
  closed: number,
  { file, isWhole = false }: { readonly file?: string; readonly isWhole?: boolean } = {},
): Promise<TestProgram & { readonly printerId: string }> {
  const test = await programInMemory(file === undefined ? {} : { file });
  const shop = await test.ask('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 1 });
  const printerId = shop.printers[0]?.id ?? '';
  const { caseId } = await test.ask('case:open', { ...complaint, printerId });
  if (isWhole)
    for (const [index, event] of EVENTS.entries())
      await test.ask('case:send', { caseId, revision: index + 1, event });
  await copyRows(test, 'cases', 'id', caseId, closed, { number: sql`n + 1000`, state: sql.lit('closed') });
  if (isWhole)
    for (const table of ['case_events', 'case_causes'])
      await copyRows(test, table, 'case_id', caseId, closed, {});
  return { ...test, printerId };
}

async function copyRows(
  { program }: TestProgram,
  table: string,
  idColumn: string,
  caseId: string,
  times: number,
  changed: Readonly<Record<string, ReturnType<typeof sql>>>,
): Promise<void> {
  const { db } = program.casebook;
  const columns = await sql<{ name: string }>`select name from pragma_table_info(${table})`.execute(db);
  const copied = columns.rows.map(
    ({ name }) => changed[name] ?? (name === idColumn ? sql`printf('%026d', n)` : sql.ref(name)),
  );
  await sql`
    with recursive counted (n) as (select 1 union all select n + 1 from counted where n < ${sql.lit(times)})
    insert into ${sql.table(table)} (${sql.join(columns.rows.map(({ name }) => sql.ref(name)))})
    select ${sql.join(copied)} from counted, ${sql.table(table)}
    where ${sql.table(table)}.${sql.ref(idColumn)} = ${caseId}`.execute(db);
}
