import type { DueTask, MaintenanceHistory } from '../../src-core/contract/maintenance-view.ts';
import type { MaintenanceUnit } from '../../src-core/contract/maintenance-units.ts';
import type { Interval } from '../../src-core/knowledge/maintenance-schema.ts';
import { calendarDay } from './format.ts';

/** How a task is counted, in the order in which it is said. */
export const UNIT_WORDS: Readonly<Record<MaintenanceUnit, string>> = {
  hours: 'print hours',
  abrasiveHours: 'hours with abrasive filament',
  prints: 'prints',
  metres: 'm of filament',
  days: 'days',
};

const UNITS = Object.keys(UNIT_WORDS) as MaintenanceUnit[];

const figure = (value: number) => Math.round(value).toLocaleString('en-GB');

/** "Every 500 print hours or 120 days, whichever comes first". */
export function intervalWords(every: Interval): string {
  const parts = UNITS.flatMap((unit) => {
    const limit = every[unit];
    return limit === undefined ? [] : [`${figure(limit)} ${UNIT_WORDS[unit]}`];
  });
  return `Every ${parts.join(' or ')}${parts.length > 1 ? ', whichever comes first' : ''}`;
}

/** "About 412 of 500 print hours, 95 of 120 days": what is used up, as far as it is counted. */
export function usedWords({ limits }: Pick<DueTask, 'limits'>): string {
  if (limits.length === 0) return 'No counter says how much was printed';
  return limits
    .map(
      ({ unit, used, every, isEstimated }) =>
        `${isEstimated ? 'about ' : ''}${figure(used)} of ${figure(every)} ${UNIT_WORDS[unit]}`,
    )
    .join(', ');
}

/** "Due now", "Due 3 Mar 2026", "Due about 3 Jun 2026". */
export function dueTaskWords({ due, dueOn }: Pick<DueTask, 'due' | 'dueOn'>): string {
  if (due === 'overdue') return 'Due now';
  if (due === 'not-counted') return 'Not counted';
  if (dueOn === null) return 'Not due yet';
  return due === 'this-week' ? `Due ${calendarDay(dueOn)}` : `Due about ${calendarDay(dueOn)}`;
}

/** "Last done 3 Mar 2026 (0.6 hardened)", or since when it is counted where it was never logged. */
export function lastWords({ last, since }: Pick<DueTask, 'last' | 'since'>): string {
  if (last === null) return `Never logged here; counted since ${calendarDay(since.slice(0, 10))}`;
  return `Last done ${calendarDay(last.at.slice(0, 10))}${last.part === '' ? '' : ` (${last.part})`}`;
}

/** "1,250 h, 310 prints, 4,200 m on the counters". */
export function readingWords(reading: MaintenanceHistory['entries'][number]['reading']): string {
  if (reading === null) return '';
  const parts = [
    reading.printHours === null ? [] : [`${figure(reading.printHours)} h`],
    reading.prints === null ? [] : [`${figure(reading.prints)} prints`],
    reading.metres === null ? [] : [`${figure(reading.metres)} m`],
  ].flat();
  return parts.length === 0 ? '' : `${parts.join(', ')} on the counters`;
}
