import { countedCosts, moneyPerWorkMinute } from '../../../src-core/session/counted-costs.ts';
import { recurrenceReport } from '../../../src-core/recurrence/report.ts';
import {
  dayAfter,
  isTimeZone,
  shopCalendar,
  type ShopCalendar,
} from '../../../src-core/recurrence/shop-calendar.ts';
import { causeLabel } from '../../../src-core/session/wording.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { listPrinters } from '../../casebook/printer.repository.ts';
import {
  readCosts,
  readTimeZone,
  readUsualHours,
  saveSetting,
} from '../../casebook/shop-setting.repository.ts';
import { listSpools } from '../../casebook/spool.repository.ts';
import { groupsBy, needsSpools, readClosedCases } from '../closed-cases.ts';
import type { Handler } from '../dispatcher.ts';
import type { ApplicationContext } from '../application-context.ts';
import { readPrintedHours } from '../printed-hours.ts';
import { DomainError } from '../domain-error.ts';

/** Before this no casebook begins. */
const BEGINNING = '2000-01-01';

/** First and last day (included) by the shop's calendar; open where null. */
export interface PeriodDays {
  readonly fromDay: string | null;
  readonly toDay: string | null;
}

/** A period by the shop's calendar, in ms since 1970. */
export async function readPeriod(
  program: ApplicationContext,
  { fromDay, toDay }: PeriodDays,
): Promise<{ readonly calendar: ShopCalendar; readonly fromMs: number; readonly toMs: number }> {
  if (fromDay !== null && toDay !== null && fromDay > toDay)
    throw new DomainError('bad-request', refusals.firstAfterLast());
  const calendar = await readCalendar(program);
  const today = calendar.wallTime(program.now().getTime()).day;
  return {
    calendar,
    fromMs: calendar.startOf(fromDay ?? BEGINNING),
    toMs: calendar.startOf(dayAfter(toDay ?? today, 1)),
  };
}

export const leadRecurrence: Handler<'lead:recurrence'> = async (program, { fromDay, toDay, by }) => {
  const { db } = program.casebook;
  const { knowledge } = program;
  const { calendar, fromMs, toMs } = await readPeriod(program, { fromDay, toDay });
  const records = { printers: await listPrinters(db), spools: needsSpools(by) ? await listSpools(db) : [] };
  const groups = groupsBy(by, knowledge, records.printers, records.spools);
  const { cases, causeLabels } = await readClosedCases(program, groups, records, calendar, fromMs, toMs);
  const costs = countedCosts((await readCosts(db)).value);
  const practice = (id: string) => knowledge.practices.get(id);
  return recurrenceReport({
    by,
    cases,
    ...(await readPrintedHours(db, program.now())),
    usualHours: await readUsualHours(db),
    printersOf: groups.printersOf,
    calendar,
    fromMs,
    toMs,
    moneyPerMinute: costs === null ? null : moneyPerWorkMinute(costs),
    currency: costs?.currency ?? null,
    whereLabel: (where) => groups.label(where),
    whatLabel: (what) =>
      (by === 'practice' ? practice(what)?.label : undefined) ??
      causeLabels.get(what) ??
      causeLabel(knowledge, what),
    printerLabel: (id) => records.printers.find((one) => one.id === id)?.label ?? '',
    practicesOf: (cause) =>
      (knowledge.causes.get(cause)?.practices ?? []).flatMap((id) => {
        const habit = practice(id);
        return habit ? [{ id, label: habit.label, better: habit.better }] : [];
      }),
    practice,
  });
};

export const leadSaveTimeZone: Handler<'lead:save-time-zone'> = async (program, { timeZone }) => {
  if (timeZone !== null && !isTimeZone(timeZone))
    throw new DomainError('bad-request', refusals.noSuchZone({ zone: timeZone }));
  const { db } = program.casebook;
  // Looked up and written in one go: said twice it is the same, and nothing is written again.
  await db.transaction().execute(async (trx) => {
    if (timeZone !== (await readTimeZone(trx))) await saveSetting(trx, 'time-zone', timeZone);
  });
  return { timeZone: (await readCalendar(program)).timeZone };
};

export const leadSaveUsualHours: Handler<'lead:save-usual-hours'> = async (
  program,
  { printerId, hoursPerWeek },
) => {
  const { db } = program.casebook;
  if (!(await listPrinters(db)).some(({ id }) => id === printerId))
    throw new DomainError('not-found', refusals.noPrinterHere());
  return db.transaction().execute(async (trx) => {
    const { [printerId]: before, ...others } = await readUsualHours(trx);
    const now = { ...others, ...(hoursPerWeek !== null && { [printerId]: hoursPerWeek }) };
    if ((before ?? null) !== hoursPerWeek) await saveSetting(trx, 'usual-hours', now);
    return now;
  });
};

/** The calendar by which the shop counts: as it was set, the machine's own otherwise. */
export async function readCalendar({ casebook }: ApplicationContext): Promise<ShopCalendar> {
  const set = await readTimeZone(casebook.db);
  return shopCalendar(set ?? new Intl.DateTimeFormat().resolvedOptions().timeZone);
}
