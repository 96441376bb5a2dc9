import type { Knowledge } from '../knowledge/knowledge.ts';
import type { MaintenanceUnit } from '../contract/maintenance-units.ts';
import { hoursWithin, type PrintedStretch } from '../recurrence/print-hours.ts';
import { weighedWithin, type SpoolOnPrinter } from './spools-on-printer.ts';

const DAY_MS = 24 * 3_600_000;
/** The pace of late is taken from so many days before the last reading. */
const DAYS_OF_LATE = 60;
/** Beyond this long without a reading nobody can say what was printed meanwhile. */
const LONGEST_GUESS_DAYS = 60;
/** A reading so old is as good as one of today. */
const FRESH_DAYS = 3;
/** Of the hours, at least this share must have a known spool: otherwise nothing is said of abrasive filament. */
const LEAST_KNOWN_SHARE = 0.8;

/** What a printer's counters and its spools say of how it was used. */
export interface PrinterUse {
  readonly hours: readonly PrintedStretch[];
  readonly prints: readonly PrintedStretch[];
  readonly metres: readonly PrintedStretch[];
  readonly spools: readonly SpoolOnPrinter[];
}

export interface Used {
  readonly amount: number;
  /** A day, at the pace of late; null where nobody knows. */
  readonly perDay: number | null;
  readonly isEstimated: boolean;
}

/** How much a printer was used since a time (ms since 1970), in one of the units; null where nothing says so. */
export function usedSince(
  knowledge: Pick<Knowledge, 'nozzleWear'>,
  use: PrinterUse,
  unit: MaintenanceUnit,
  sinceMs: number,
  nowMs: number,
): Used | null {
  const wear = (filler: string) => knowledge.nozzleWear.get(filler);
  switch (unit) {
    case 'days':
      return { amount: Math.max(0, nowMs - sinceMs) / DAY_MS, perDay: 1, isEstimated: false };
    case 'hours':
      return counted(use.hours, sinceMs, nowMs, (from, to) => hoursWithin(use.hours, from, to));
    case 'prints':
      return counted(use.prints, sinceMs, nowMs, (from, to) => hoursWithin(use.prints, from, to));
    case 'metres':
      return counted(use.metres, sinceMs, nowMs, (from, to) =>
        weighedWithin(use.metres, use.spools, from, to, (filler) => wear(filler)?.timesPlain ?? 1, 1),
      );
    case 'abrasiveHours': {
      if (!isKnownWhatWasOn(use, sinceMs, nowMs)) return null;
      return counted(use.hours, sinceMs, nowMs, (from, to) =>
        weighedWithin(use.hours, use.spools, from, to, (filler) => (wear(filler)?.isAbrasive ? 1 : 0), 0),
      );
    }
  }
}

/** Whether spools were logged for most of the hours that were printed. */
function isKnownWhatWasOn({ hours, spools }: PrinterUse, sinceMs: number, nowMs: number): boolean {
  const known = weighedWithin(hours, spools, sinceMs, nowMs, () => 1, 0);
  const all = hoursWithin(hours, sinceMs, nowMs);
  // Nothing printed yet by the meter: what is on now says it.
  return all > 0 ? known >= LEAST_KNOWN_SHARE * all : spools.some(({ toMs }) => toMs >= nowMs);
}

/** What a counter says, and from its last reading on what it probably ran on by. */
function counted(
  stretches: readonly PrintedStretch[],
  sinceMs: number,
  nowMs: number,
  within: (fromMs: number, toMs: number) => number,
): Used | null {
  const last = stretches.at(-1);
  if (!last) return null;
  const lateMs = DAYS_OF_LATE * DAY_MS;
  const paceFromMs = Math.max(last.toMs - lateMs, stretches[0]?.fromMs ?? 0);
  const paceDays = (last.toMs - paceFromMs) / DAY_MS;
  const perDay = paceDays > 0 ? within(paceFromMs, last.toMs) / paceDays : null;
  const unreadDays = Math.max(0, nowMs - Math.max(last.toMs, sinceMs)) / DAY_MS;
  const guessed = (perDay ?? 0) * Math.min(unreadDays, LONGEST_GUESS_DAYS);
  return {
    amount: within(Math.min(sinceMs, nowMs), nowMs) + guessed,
    perDay,
    isEstimated: unreadDays > FRESH_DAYS && guessed > 0,
  };
}
