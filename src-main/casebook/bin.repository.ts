import { z } from 'zod';
import type { BinnedCase } from '../../src-core/contract/bin-view.ts';
import { deleteCases } from './case-removal.repository.ts';
import type { CasebookDb } from './casebook.ts';
import type { Tables } from './tables.ts';

/** Days that a case stays in the bin. */
export const BIN_DAYS = 30;
const DAY_MS = 24 * 3_600_000;

const cellSchema = z.union([z.string(), z.number(), z.null()]);
/** A case's rows as they lay in their tables. */
const rowsSchema = z.strictObject({
  case: z.record(z.string(), cellSchema),
  events: z.array(z.record(z.string(), cellSchema)),
  causes: z.array(z.record(z.string(), cellSchema)),
});
type BinnedRows = z.infer<typeof rowsSchema>;

/** The rows of a case in the bin. */
export function binnedRows(json: string): BinnedRows {
  return rowsSchema.parse(JSON.parse(json));
}

export async function listBinned(db: CasebookDb): Promise<BinnedCase[]> {
  const rows = await db
    .selectFrom('binned_cases')
    .select(['case_id', 'number', 'label', 'binned_at'])
    .orderBy('binned_at', 'desc')
    .execute();
  return rows.map((row) => ({
    caseId: row.case_id,
    number: row.number,
    label: row.label,
    binnedAt: row.binned_at,
    goesAt: new Date(Date.parse(row.binned_at) + BIN_DAYS * DAY_MS).toISOString(),
  }));
}

export async function isBinned(db: CasebookDb, caseId: string): Promise<boolean> {
  const row = await db
    .selectFrom('binned_cases')
    .select('case_id')
    .where('case_id', '=', caseId)
    .executeTakeFirst();
  return row !== undefined;
}

/** Moves a case with its log into the bin: nothing else sees it there. Within the caller's transaction. */
export async function binCase(trx: CasebookDb, caseId: string, at: string): Promise<void> {
  const row = await trx.selectFrom('cases').selectAll().where('id', '=', caseId).executeTakeFirst();
  if (!row) return;
  const events = await trx
    .selectFrom('case_events')
    .selectAll()
    .where('case_id', '=', caseId)
    .orderBy('seq')
    .execute();
  const causes = await trx.selectFrom('case_causes').selectAll().where('case_id', '=', caseId).execute();
  const rows = { case: { ...row }, events, causes };
  await trx
    .insertInto('binned_cases')
    .values({
      case_id: caseId,
      number: row.number,
      binned_at: at,
      label: [row.complaint, row.cause_label].filter(Boolean).join(': '),
      rows_json: JSON.stringify(rows),
    })
    .execute();
  await deleteCases(trx, [caseId]);
}

/** Puts a case that is in the bin back as it was. Within the caller's transaction. */
export async function restoreCase(trx: CasebookDb, caseId: string): Promise<void> {
  const binned = await trx
    .selectFrom('binned_cases')
    .selectAll()
    .where('case_id', '=', caseId)
    .executeTakeFirst();
  if (!binned) return;
  const rows = binnedRows(binned.rows_json);
  const isThere = async (table: 'printers' | 'spools', id: unknown) =>
    typeof id === 'string' &&
    (await trx.selectFrom(table).select('id').where('id', '=', id).executeTakeFirst()) !== undefined;
  const own = rows.case as unknown as Tables['cases'];
  await trx
    .insertInto('cases')
    .values({
      ...own,
      // A printer or spool that went with the demo shop meanwhile: the log still names it.
      printer_id: (await isThere('printers', own.printer_id)) ? own.printer_id : null,
      spool_id: (await isThere('spools', own.spool_id)) ? own.spool_id : null,
    })
    .execute();
  for (const event of rows.events)
    await trx
      .insertInto('case_events')
      .values(event as unknown as Tables['case_events'])
      .execute();
  for (const cause of rows.causes)
    await trx
      .insertInto('case_causes')
      .values(cause as unknown as Tables['case_causes'])
      .execute();
  await trx.deleteFrom('binned_cases').where('case_id', '=', caseId).execute();
}

/**
 * Deletes what is in the bin for good: all of it, or what has been there for its days at `now`. Answers the photos that
 * nothing names any more. Within the caller's transaction.
 */
export async function emptyBin(
  trx: CasebookDb,
  which: 'all' | { readonly olderThanDaysAt: Date },
): Promise<readonly string[]> {
  let query = trx.selectFrom('binned_cases').select(['case_id', 'rows_json']);
  if (which !== 'all')
    query = query.where(
      'binned_at',
      '<=',
      new Date(which.olderThanDaysAt.getTime() - BIN_DAYS * DAY_MS).toISOString(),
    );
  const rows = await query.execute();
  for (const { case_id } of rows)
    await trx.deleteFrom('binned_cases').where('case_id', '=', case_id).execute();
  const photos = new Set(
    rows.flatMap(({ rows_json }) =>
      [...rows_json.matchAll(/\\"photo\\":\\"([0-9a-f]{64})\\"/g)].map((one) => one[1] ?? ''),
    ),
  );
  const unnamed: string[] = [];
  for (const photo of photos) if (!(await isNamed(trx, photo))) unnamed.push(photo);
  return unnamed;
}

async function isNamed(trx: CasebookDb, photo: string): Promise<boolean> {
  const inCase = await trx
    .selectFrom('case_events')
    .select('case_id')
    .where('event_json', 'like', `%${photo}%`)
    .limit(1)
    .executeTakeFirst();
  if (inCase) return true;
  const inBin = await trx
    .selectFrom('binned_cases')
    .select('case_id')
    .where('rows_json', 'like', `%${photo}%`)
    .limit(1)
    .executeTakeFirst();
  return inBin !== undefined;
}
