import { z } from 'zod';
import { conditionsSchema } from '../../src-core/contract/common.ts';
import type { Printer } from '../../src-core/contract/shop-records.ts';
import type { CasebookDb } from './casebook.ts';

const conditionsJson = z.string().transform((text) => conditionsSchema.parse(JSON.parse(text)));

/** All printers with their latest meter reading and number of open cases, by label. */
export async function listPrinters(db: CasebookDb): Promise<Printer[]> {
  const rows = await db
    .selectFrom('printers')
    .selectAll('printers')
    .select((eb) => [
      eb
        .selectFrom('hour_readings')
        .select(({ fn }) => fn.max('hour_readings.total_hours').as('hours'))
        .whereRef('hour_readings.printer_id', '=', 'printers.id')
        .as('print_hours'),
      eb
        .selectFrom('cases')
        .select(({ fn }) => fn.countAll().as('count'))
        .whereRef('cases.printer_id', '=', 'printers.id')
        .where('cases.state', '!=', 'closed')
        .as('open_cases'),
    ])
    .orderBy('printers.label')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    label: row.label,
    conditions: conditionsJson.parse(row.conditions_json),
    printHours: Number(row.print_hours ?? 0),
    note: row.note,
    isRetired: row.is_retired === 1,
    isDemo: row.is_demo === 1,
    openCases: Number(row.open_cases ?? 0),
  }));
}

export type PrinterToSave = Omit<Printer, 'openCases'>;

/** Adds or changes a printer and keeps its meter as a dated reading when it has moved. */
export async function savePrinter(db: CasebookDb, printer: PrinterToSave, at: string): Promise<void> {
  const values = {
    label: printer.label,
    conditions_json: JSON.stringify(printer.conditions),
    note: printer.note,
    is_retired: printer.isRetired ? 1 : 0,
    is_demo: printer.isDemo ? 1 : 0,
  };
  await db
    .insertInto('printers')
    .values({ id: printer.id, ...values })
    .onConflict((conflict) => conflict.column('id').doUpdateSet(values))
    .execute();
  const last = await db
    .selectFrom('hour_readings')
    .select('total_hours')
    .where('printer_id', '=', printer.id)
    .orderBy('at', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (last?.total_hours === printer.printHours) return;
  await saveHourReading(db, printer.id, at, printer.printHours);
}

/** Keeps a reading of the print-hour meter (hours in total). */
export async function saveHourReading(
  db: CasebookDb,
  printerId: string,
  at: string,
  totalHours: number,
): Promise<void> {
  await db
    .insertInto('hour_readings')
    .values({ printer_id: printerId, at, total_hours: totalHours })
    .onConflict((conflict) => conflict.columns(['printer_id', 'at']).doUpdateSet({ total_hours: totalHours }))
    .execute();
}

/** All readings of all printers, oldest first. */
export async function listHourReadings(
  db: CasebookDb,
): Promise<{ printerId: string; at: string; totalHours: number }[]> {
  const rows = await db.selectFrom('hour_readings').selectAll().orderBy('at').execute();
  return rows.map((row) => ({ printerId: row.printer_id, at: row.at, totalHours: row.total_hours }));
}
