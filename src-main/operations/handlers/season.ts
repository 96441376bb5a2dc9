import type { Season } from '../../../src-core/contract/season-view.ts';
import { steamCauses } from '../../../src-core/moisture/steam-causes.ts';
import { seasonOf } from '../../../src-core/recurrence/season.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { appendUnlessOvertaken } from '../../casebook/append-unless-overtaken.ts';
import { listPrinters } from '../../casebook/printer.repository.ts';
import {
  readClimate,
  readMonthHumidity,
  saveSetting,
  settingRevision,
} from '../../casebook/shop-setting.repository.ts';
import type { ApplicationContext } from '../application-context.ts';
import { groupsBy, readClosedCases } from '../closed-cases.ts';
import { readPrintedHours } from '../printed-hours.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';
import { readCalendar, readPeriod, type PeriodDays } from './recurrence.ts';

const ALL_DAYS: PeriodDays = { fromDay: null, toDay: null };

export const leadSeason: Handler<'lead:season'> = readSeason;

/** Keeps what somebody read of one month's humidity; null takes it back. */
export const leadSaveHumidity: Handler<'lead:save-humidity'> = async (
  program,
  { month, percentRh, revision, period },
) => {
  const { db } = program.casebook;
  const today = (await readCalendar(program)).wallTime(program.now().getTime()).day;
  if (month > today.slice(0, 7)) throw new DomainError('bad-request', refusals.monthNotBegun({ month }));
  const appended = await appendUnlessOvertaken(db, {
    revision,
    standsAt: (trx) => settingRevision(trx, 'month-humidity'),
    write: async (trx) => {
      const known = Object.entries((await readMonthHumidity(trx)).value);
      const others = Object.fromEntries(known.filter(([one]) => one !== month));
      await saveSetting(
        trx,
        'month-humidity',
        percentRh === null ? others : { ...others, [month]: percentRh },
      );
    },
  });
  const now = await readSeason(program, period ?? ALL_DAYS);
  if (appended !== 'stale') return now;
  throw new DomainError('stale', refusals.humidityMovedOn(), now);
};

async function readSeason(program: ApplicationContext, period: PeriodDays): Promise<Season> {
  const { db } = program.casebook;
  const { calendar, fromMs, toMs } = await readPeriod(program, period);
  const printers = await listPrinters(db);
  const groups = groupsBy('printer', program.knowledge, printers, []);
  const { cases } = await readClosedCases(program, groups, { printers, spools: [] }, calendar, fromMs, toMs);
  const steam = steamCauses(program.knowledge);
  const { value: entered, revision } = await readMonthHumidity(db);
  return {
    revision,
    ...seasonOf({
      cases,
      isMoisture: ({ causes }) => causes.some((id) => steam.has(id)),
      stretches: [...(await readPrintedHours(db, program.now())).stretches.values()].flat(),
      calendar,
      fromMs,
      toMs,
      climate: (await readClimate(db)).value,
      entered,
    }),
  };
}
