import { sql } from 'kysely';
import { conditionsSchema } from '../../src-core/contract/common.ts';
import { METER_KINDS, type MeterKind, type Printer } from '../../src-core/contract/shop-records.ts';
import { faults } from '../../src-core/words/en/faults.ts';
import type { Message } from '../../src-core/words/message.ts';
import type { CasebookDb } from './casebook.ts';

/** What stands in a row; nothing where it cannot be read, so that one row never keeps the shop from being shown. */
function conditionsOf(json: string): Printer['conditions'] {
  try {
    return conditionsSchema.parse(JSON.parse(json));
  } catch {
    return {};
  }
}

/** All printers with their latest meter reading and number of open cases, by label. */
export async function listPrinters(db: CasebookDb): Promise<Printer[]> {
  const rows = await db
    .selectFrom('printers')
    .leftJoin(
      (eb) =>
        eb
          .selectFrom('cases')
          .select(({ fn }) => [
            // As it stands in no index: SQLite would rather count its way through all cases of each printer than look at the open ones.
            sql<string | null>`cases.printer_id || ''`.as('printer_id'),
            fn.countAll().as('count'),
          ])
          // Written out: with a parameter the index of open cases would not be used.
          .where(sql<boolean>`cases.state <> 'closed' and cases.state <> 'merged'`)
          .groupBy(sql`cases.printer_id || ''`)
          .as('open_cases'),
      (join) => join.onRef('open_cases.printer_id', '=', 'printers.id'),
    )
    .selectAll('printers')
    .select((eb) => [
      eb
        .selectFrom('hour_readings')
        .select('hour_readings.total_hours')
        .whereRef('hour_readings.printer_id', '=', 'printers.id')
        // The newest, not the highest: a mistyped one must not stay for good.
        .orderBy('hour_readings.at', 'desc')
        .limit(1)
        .as('print_hours'),
      'open_cases.count as open_cases',
    ])
    .orderBy('printers.label')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    label: row.label,
    model: row.model,
    conditions: conditionsOf(row.conditions_json),
    printHours: Number(row.print_hours ?? 0),
    note: row.note,
    isRetired: row.is_retired === 1,
    isDemo: row.is_demo === 1,
    revision: row.revision,
    openCases: Number(row.open_cases ?? 0),
  }));
}

export type PrinterToSave = Omit<Printer, 'openCases' | 'revision' | 'model'> &
  Partial<Pick<Printer, 'model'>>;

/**
 * Adds a printer, or changes it and moves its revision on, and keeps its meter as a dated reading when it has moved. Answers what is wrong with the
 * reading, or null: then nothing was written. Belongs in a transaction of the caller's.
 */
export async function savePrinter(
  db: CasebookDb,
  printer: PrinterToSave,
  at: string,
  meter: MeterKind = 'read',
): Promise<string | null> {
  const last = await lastReading(db, printer.id);
  if (last && printer.printHours < last.total_hours && meter === 'read') {
    const stood = last.total_hours.toLocaleString('en-GB');
    return `its meter stood at ${stood} h: say whether that was read wrongly or the meter began again`;
  }
  const values = {
    label: printer.label,
    model: printer.model ?? '',
    conditions_json: JSON.stringify(printer.conditions),
    note: printer.note,
    is_retired: printer.isRetired ? 1 : 0,
    is_demo: printer.isDemo ? 1 : 0,
  };
  await db
    .insertInto('printers')
    .values({ id: printer.id, ...values, revision: 1 })
    .onConflict((conflict) =>
      conflict.column('id').doUpdateSet((eb) => ({ ...values, revision: eb('printers.revision', '+', 1) })),
    )
    .execute();
  if (last?.total_hours === printer.printHours && meter !== 'reset') return null;
  // A clock put back must not make the new reading the older one.
  const isAfter = !last || Date.parse(at) > Date.parse(last.at);
  const when = isAfter ? at : new Date(Date.parse(last.at) + 1).toISOString();
  await saveHourReading(db, printer.id, when, printer.printHours, meter);
  return null;
}

function lastReading(db: CasebookDb, printerId: string) {
  return db
    .selectFrom('hour_readings')
    .select(['at', 'total_hours'])
    .where('printer_id', '=', printerId)
    .orderBy('at', 'desc')
    .limit(1)
    .executeTakeFirst();
}

/** Keeps a reading of the print-hour meter (hours in total). */
export async function saveHourReading(
  db: CasebookDb,
  printerId: string,
  at: string,
  totalHours: number,
  kind: MeterKind = 'read',
): Promise<void> {
  await db
    .insertInto('hour_readings')
    .values({ printer_id: printerId, at, total_hours: totalHours, kind })
    .onConflict((conflict) =>
      conflict.columns(['printer_id', 'at']).doUpdateSet({ total_hours: totalHours, kind }),
    )
    .execute();
}

/**
 * Keeps a reading of some time, between the readings before and after it. Answers what is wrong with it, or null: then
 * nothing was written. Belongs in a transaction of the caller's.
 */
export async function keepHourReading(
  db: CasebookDb,
  printerId: string,
  at: string,
  totalHours: number,
): Promise<Message | null> {
  const own = (await listHourReadings(db)).filter((one) => one.printerId === printerId);
  const before = own.findLast((one) => one.at < at);
  const after = own.find((one) => one.at > at);
  if (before && totalHours < before.totalHours) return faults.meterBefore({ count: before.totalHours });
  if (after?.kind === 'read' && totalHours > after.totalHours)
    return faults.meterAfter({ count: after.totalHours });
  if (before?.totalHours !== totalHours) await saveHourReading(db, printerId, at, totalHours);
  return null;
}

/** Takes the reading of a time back. */
export async function deleteHourReading(db: CasebookDb, printerId: string, at: string): Promise<void> {
  await db.deleteFrom('hour_readings').where('printer_id', '=', printerId).where('at', '=', at).execute();
}

/** All readings of all printers, oldest first. */
export async function listHourReadings(
  db: CasebookDb,
): Promise<{ printerId: string; at: string; totalHours: number; kind: MeterKind }[]> {
  const rows = await db.selectFrom('hour_readings').selectAll().orderBy('at').execute();
  return rows.map((row) => ({
    printerId: row.printer_id,
    at: row.at,
    totalHours: row.total_hours,
    kind: METER_KINDS.find((kind) => kind === row.kind) ?? 'read',
  }));
}
