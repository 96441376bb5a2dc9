import { maintenanceEventSchema, type MaintenanceEvent } from '../../src-core/contract/maintenance-view.ts';
import type { LoggedMaintenance } from '../../src-core/maintenance/maintenance-log.ts';
import type { CasebookDb } from './casebook.ts';

export interface MaintenanceLog {
  /** Oldest first, without those that this version cannot read. */
  readonly events: readonly LoggedMaintenance[];
  /** Number of the newest entry, readable or not; 0 while there is none. */
  readonly revision: number;
  readonly unreadable: number;
}

export const NO_MAINTENANCE: MaintenanceLog = { events: [], revision: 0, unreadable: 0 };

/** The logs of all printers that have one, or of one printer. */
export async function readMaintenanceLogs(
  db: CasebookDb,
  printerId: string | null = null,
): Promise<ReadonlyMap<string, MaintenanceLog>> {
  let query = db.selectFrom('maintenance_events').selectAll().orderBy('printer_id').orderBy('seq');
  if (printerId !== null) query = query.where('printer_id', '=', printerId);
  const rows = await query.execute();
  return new Map(
    [...Map.groupBy(rows, (row) => row.printer_id)].map(([id, own]) => {
      const events = own.flatMap(({ seq, at, event_json }) => {
        const event = eventOf(event_json);
        return event ? [{ seq, at, event }] : [];
      });
      return [id, { events, revision: own.at(-1)?.seq ?? 0, unreadable: own.length - events.length }];
    }),
  );
}

/** Adds one entry; within the caller's transaction. */
export async function insertMaintenance(
  trx: CasebookDb,
  printerId: string,
  { seq, at, event }: LoggedMaintenance,
): Promise<void> {
  await trx
    .insertInto('maintenance_events')
    .values({ printer_id: printerId, seq, at, event_json: JSON.stringify(event) })
    .execute();
}

/** Spools of which it was ever logged on which printer they are. */
export async function spoolsEverOnPrinters(db: CasebookDb): Promise<readonly string[]> {
  const rows = await db
    .selectFrom('spool_events')
    .select('spool_id')
    .distinct()
    .where('event_json', 'like', '%"printerId":"%')
    .execute();
  return rows.map((row) => row.spool_id);
}

function eventOf(json: string): MaintenanceEvent | null {
  try {
    return maintenanceEventSchema.parse(JSON.parse(json));
  } catch {
    return null;
  }
}
