import { spoolEventSchema } from '../../src-core/contract/spool-life.ts';
import type { LoggedSpoolEvent } from '../../src-core/moisture/index.ts';
import { appendUnlessOvertaken } from './append-unless-overtaken.ts';
import type { CasebookDb } from './casebook.ts';

export interface SpoolLog {
  /** Oldest first. */
  readonly events: LoggedSpoolEvent[];
  /** Entries that this version cannot read, set aside: the others are shown and counted all the same. */
  readonly unreadable: readonly { readonly seq: number; readonly at: string }[];
  /** Number of the newest entry, readable or not; 0 while there is none. */
  readonly revision: number;
}

/** Where a spool has been. */
export async function readSpoolLog(db: CasebookDb, spoolId: string): Promise<SpoolLog> {
  const rows = await db
    .selectFrom('spool_events')
    .selectAll()
    .where('spool_id', '=', spoolId)
    .orderBy('seq')
    .execute();
  const events: LoggedSpoolEvent[] = [];
  const unreadable: { seq: number; at: string }[] = [];
  for (const { seq, at, event_json } of rows) {
    const event = eventOf(event_json);
    if (event) events.push({ seq, at, event });
    else unreadable.push({ seq, at });
  }
  return { events, unreadable, revision: rows.at(-1)?.seq ?? 0 };
}

function eventOf(json: string): LoggedSpoolEvent['event'] | null {
  try {
    return spoolEventSchema.parse(JSON.parse(json));
  } catch {
    return null;
  }
}

/** Appends one entry; "stale", with nothing written, where another came before it since the caller read the log. */
export async function appendSpoolEvent(
  db: CasebookDb,
  spoolId: string,
  logged: LoggedSpoolEvent,
): Promise<'stale' | { readonly written: unknown }> {
  return appendUnlessOvertaken(db, {
    revision: logged.seq - 1,
    standsAt: async (trx) => {
      const last = await trx
        .selectFrom('spool_events')
        .select(({ fn }) => fn.max('seq').as('seq'))
        .where('spool_id', '=', spoolId)
        .executeTakeFirst();
      return Number(last?.seq ?? 0);
    },
    write: (trx) =>
      trx
        .insertInto('spool_events')
        .values({
          spool_id: spoolId,
          seq: logged.seq,
          at: logged.at,
          event_json: JSON.stringify(logged.event),
        })
        .execute(),
  });
}
