import type { Message } from '../../src-core/words/message.ts';
import type { CasebookDb } from './casebook.ts';
import { readStoredEvent, type StoredRow } from './stored-event.ts';

/** Cases looked up at once. */
const CASES_AT_ONCE = 100;

export interface ExportedCase {
  readonly caseId: string;
  readonly number: number;
  readonly printerId: string | null;
  readonly spoolId: string | null;
  readonly knowledgeVersion: string;
  readonly engineVersion: string;
  readonly rows: readonly StoredRow[];
}

/** Whole cases in order of their ids, after one of them, a lot at a time; an empty lot ends it. */
export async function readCasesAfter(
  db: CasebookDb,
  caseIds: readonly string[] | null,
  after: string | null,
): Promise<ExportedCase[]> {
  let query = db
    .selectFrom('cases')
    .select(['id', 'number', 'printer_id', 'spool_id', 'knowledge_version', 'engine_version'])
    .orderBy('id')
    .limit(CASES_AT_ONCE);
  if (after !== null) query = query.where('id', '>', after);
  if (caseIds) query = query.where('id', 'in', caseIds.length > 0 ? [...caseIds] : ['']);
  const cases = await query.execute();
  if (cases.length === 0) return [];
  const events = await db
    .selectFrom('case_events')
    .select(['case_id', 'seq', 'at', 'event_json', 'by_initials'])
    .where(
      'case_id',
      'in',
      cases.map(({ id }) => id),
    )
    .orderBy('case_id')
    .orderBy('seq')
    .execute();
  const byCase = Map.groupBy(events, ({ case_id }) => case_id);
  return cases.map((one) => ({
    caseId: one.id,
    number: one.number,
    printerId: one.printer_id,
    spoolId: one.spool_id,
    knowledgeVersion: one.knowledge_version,
    engineVersion: one.engine_version,
    rows: byCase.get(one.id) ?? [],
  }));
}

/** The events of a case for a line of an export, with what cannot be read as it lies there. */
export function eventsForLine(rows: readonly StoredRow[]) {
  const setAside: { readonly seq: number; readonly fault: Message }[] = [];
  const events = rows.map((row) => {
    const { logged, fault } = readStoredEvent(row);
    if (fault === null) return logged;
    setAside.push({ seq: row.seq, fault });
    const { by } = logged;
    return { seq: row.seq, at: logged.at, ...(by !== undefined && { by }), unreadable: row.event_json };
  });
  return { events, setAside };
}
