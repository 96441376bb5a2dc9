import { listed } from '../messages/lists.ts';
import { locale } from '../messages/language.ts';
import type { DueTask, MaintenanceHistory } from '../../src-core/contract/maintenance-view.ts';
import type { MaintenanceUnit } from '../../src-core/contract/maintenance-units.ts';
import type { Interval } from '../../src-core/knowledge/maintenance-schema.ts';
import { calendarDay } from './format.ts';
import { m } from '../messages/en/maintenance-words.ts';

/** How a task is counted, in the order in which it is said. */
export const UNIT_WORDS: Readonly<Record<MaintenanceUnit, string>> = {
  hours: m.printHours(),
  abrasiveHours: m.hoursWithAbrasiveFilament(),
  prints: m.prints(),
  metres: m.mOfFilament(),
  days: m.days(),
};

const UNITS = Object.keys(UNIT_WORDS) as MaintenanceUnit[];

const figure = (value: number) => Math.round(value).toLocaleString(locale());

/** "Every 500 print hours or 120 days, whichever comes first". */
export function intervalWords(every: Interval): string {
  const parts = UNITS.flatMap((unit) => {
    const limit = every[unit];
    return limit === undefined ? [] : [`${figure(limit)} ${UNIT_WORDS[unit]}`];
  });
  return parts.length > 1
    ? m.everyWhicheverComesFirst({ parts: listed(parts, 'or') })
    : m.every({ parts: listed(parts, 'or') });
}

/** "About 412 of 500 print hours and 95 of 120 days": what is used up, as far as it is counted. */
export function usedWords({ limits }: Pick<DueTask, 'limits'>): string {
  if (limits.length === 0) return m.noCounterSaysHowMuchWas();
  return listed(
    limits.map(({ unit, used, every, isEstimated }) =>
      isEstimated
        ? m.aboutOf({ figure: figure(used), figure2: figure(every), unit: UNIT_WORDS[unit] })
        : m.of({ figure: figure(used), figure2: figure(every), unit: UNIT_WORDS[unit] }),
    ),
  );
}

/** "Due now", "Due 3 Mar 2026", "Due about 3 Jun 2026". */
export function dueTaskWords({ due, dueOn }: Pick<DueTask, 'due' | 'dueOn'>): string {
  if (due === 'overdue') return m.dueNow();
  if (due === 'not-counted') return m.notCounted();
  if (dueOn === null) return m.notDueYet();
  return due === 'this-week' ? m.due({ day: calendarDay(dueOn) }) : m.dueAbout({ day: calendarDay(dueOn) });
}

/** "Last done 3 Mar 2026 (0.6 hardened)", or since when it is counted where it was never logged. */
export function lastWords({ last, since }: Pick<DueTask, 'last' | 'since'>): string {
  if (last === null) return m.neverLoggedHereCountedSince({ day: calendarDay(since.slice(0, 10)) });
  const day = calendarDay(last.at.slice(0, 10));
  return last.part === '' ? m.lastDone({ day }) : m.lastDoneWith({ day, part: last.part });
}

/** "1,250 h, 310 prints and 4,200 m on the counters". */
export function readingWords(reading: MaintenanceHistory['entries'][number]['reading']): string {
  if (reading === null) return '';
  const parts = [
    reading.printHours === null ? [] : [m.h({ figure: figure(reading.printHours) })],
    reading.prints === null ? [] : [m.printsWithFigure({ figure: figure(reading.prints) })],
    reading.metres === null ? [] : [m.m({ figure: figure(reading.metres) })],
  ].flat();
  return parts.length === 0 ? '' : m.onTheCounters({ parts: listed(parts) });
}
