import { spoolEventSchema } from '../../src-core/contract/spool-life.ts';
import type { LoggedSpoolEvent } from '../../src-core/moisture/index.ts';
import type { CasebookDb } from './casebook.ts';

/** Where a spool has been, oldest first. */
export async function readSpoolLog(db: CasebookDb, spoolId: string): Promise<LoggedSpoolEvent[]> {
  const rows = await db
    .selectFrom('spool_events')
    .selectAll()
    .where('spool_id', '=', spoolId)
    .orderBy('seq')
    .execute();
  return rows.map(({ seq, at, event_json }) => ({
    seq,
    at,
    event: spoolEventSchema.parse(JSON.parse(event_json)),
  }));
}

/** Appends one entry. Two stations at once: the second fails on the key, and nothing is lost or doubled. */
export async function appendSpoolEvent(
  db: CasebookDb,
  spoolId: string,
  logged: LoggedSpoolEvent,
): Promise<void> {
  await db
    .insertInto('spool_events')
    .values({ spool_id: spoolId, seq: logged.seq, at: logged.at, event_json: JSON.stringify(logged.event) })
    .execute();
}
