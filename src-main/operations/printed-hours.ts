import { printedStretches } from '../../src-core/recurrence/print-hours.ts';
import { withUsualHours, type PrintedHours, type UsualHours } from '../../src-core/recurrence/usual-hours.ts';
import type { CasebookDb } from '../casebook/casebook.ts';
import { listHourReadings } from '../casebook/printer.repository.ts';
import { readUsualHours } from '../casebook/shop-setting.repository.ts';

/** What each printer printed: by its meter where that was read, else by what the shop says of a usual week. */
export async function readPrintedHours(db: CasebookDb, now: Date): Promise<PrintedHours> {
  const read = printedStretches(await listHourReadings(db));
  const said = Object.entries(await readUsualHours(db));
  const usual: UsualHours[] = [];
  for (const [printerId, hoursPerWeek] of said) {
    const since = await inUseSince(db, printerId);
    if (since !== null) usual.push({ printerId, hoursPerWeek, sinceMs: Date.parse(since) });
  }
  return withUsualHours(read, usual, now.getTime());
}

/** When a printer is first heard of: its first case or reading. */
async function inUseSince(db: CasebookDb, printerId: string): Promise<string | null> {
  const [firstCase, firstReading] = await Promise.all([
    db
      .selectFrom('cases')
      .select(({ fn }) => fn.min('opened_at').as('at'))
      .where('printer_id', '=', printerId)
      .executeTakeFirst(),
    db
      .selectFrom('hour_readings')
      .select(({ fn }) => fn.min('at').as('at'))
      .where('printer_id', '=', printerId)
      .executeTakeFirst(),
  ]);
  const [first] = [firstCase?.at, firstReading?.at].filter((at) => typeof at === 'string').sort();
  return first ?? null;
}
