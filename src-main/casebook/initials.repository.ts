import type { z } from 'zod';
import { actionEventSchema } from '../../src-core/contract/action-view.ts';
import { caseEventSchema } from '../../src-core/contract/case-event.ts';
import { maintenanceEventSchema } from '../../src-core/contract/maintenance-view.ts';
import {
  inActionEvent,
  inCaseEvent,
  inMaintenanceEvent,
  type InitialsChange,
} from '../../src-core/session/replace-initials.ts';
import { binnedRows } from './bin.repository.ts';
import type { CasebookDb } from './casebook.ts';

/**
 * Exchanges initials in every log, or takes them out: the one thing that changes entries, as people may ask for it. What was
 * kept of the cases concerned is dropped and worked out again. Answers those cases. Within the caller's transaction.
 */
export async function replaceInitials(trx: CasebookDb, change: InitialsChange): Promise<readonly string[]> {
  const mentions = `%"${change.from}"%`;
  const cases = new Set<string>();
  const events = await trx
    .selectFrom('case_events')
    .select(['case_id', 'seq', 'event_json'])
    .where('event_json', 'like', mentions)
    .execute();
  for (const { case_id, seq, event_json } of events) {
    const changed = changedJson(event_json, caseEventSchema, (event) => inCaseEvent(event, change));
    if (changed === null) continue;
    cases.add(case_id);
    await trx
      .updateTable('case_events')
      .set({ event_json: changed })
      .where('case_id', '=', case_id)
      .where('seq', '=', seq)
      .execute();
  }
  await trx
    .updateTable('case_events')
    .set({ by_initials: change.to })
    .where('by_initials', '=', change.from)
    .execute();
  for (const caseId of cases) {
    await trx.deleteFrom('case_steps').where('case_id', '=', caseId).execute();
    await trx.deleteFrom('case_rankings').where('case_id', '=', caseId).execute();
  }
  const actions = await trx
    .selectFrom('action_events')
    .selectAll()
    .where('event_json', 'like', mentions)
    .execute();
  for (const row of actions) {
    const changed = changedJson(row.event_json, actionEventSchema, (event) => inActionEvent(event, change));
    if (changed !== null)
      await trx
        .updateTable('action_events')
        .set({ event_json: changed })
        .where('action_id', '=', row.action_id)
        .where('seq', '=', row.seq)
        .execute();
  }
  const done = await trx
    .selectFrom('maintenance_events')
    .selectAll()
    .where('event_json', 'like', mentions)
    .execute();
  for (const row of done) {
    const changed = changedJson(row.event_json, maintenanceEventSchema, (event) =>
      inMaintenanceEvent(event, change),
    );
    if (changed !== null)
      await trx
        .updateTable('maintenance_events')
        .set({ event_json: changed })
        .where('printer_id', '=', row.printer_id)
        .where('seq', '=', row.seq)
        .execute();
  }
  await replaceInBin(trx, change);
  return [...cases];
}

/** Cases in the bin may come back: they are no exception. */
async function replaceInBin(trx: CasebookDb, change: InitialsChange): Promise<void> {
  const rows = await trx
    .selectFrom('binned_cases')
    .select(['case_id', 'rows_json'])
    .where('rows_json', 'like', `%${change.from}%`)
    .execute();
  for (const { case_id, rows_json } of rows) {
    const rows = binnedRows(rows_json);
    const events = rows.events.map((row) => {
      const json = String(row['event_json']);
      return {
        ...row,
        ...(row['by_initials'] === change.from && { by_initials: change.to }),
        event_json: changedJson(json, caseEventSchema, (event) => inCaseEvent(event, change)) ?? json,
      };
    });
    const own = rows.case['opened_by'] === change.from ? { ...rows.case, opened_by: change.to } : rows.case;
    await trx
      .updateTable('binned_cases')
      .set({ rows_json: JSON.stringify({ ...rows, case: own, events }) })
      .where('case_id', '=', case_id)
      .execute();
  }
}

/** An entry's JSON after the change; null where nothing changed or this version cannot read it. */
function changedJson<T>(json: string, schema: z.ZodType<T>, change: (event: T) => T): string | null {
  let event: T;
  try {
    event = schema.parse(JSON.parse(json));
  } catch {
    return null;
  }
  const changed = change(event);
  return changed === event ? null : JSON.stringify(changed);
}
