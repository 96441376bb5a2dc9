import { dayStamp } from './clock-words.ts';
import { m } from '../messages/en/period.ts';

/** Periods offered where cases are counted; "dates" are chosen by hand. */
export const PERIOD_WORDS = {
  days30: m.last30Days(),
  months3: m.last3Months(),
  months6: m.last6Months(),
  months12: m.last12Months(),
  all: m.allTime(),
  dates: m.fromTo(),
} as const;
export type PeriodKind = keyof typeof PERIOD_WORDS;

export interface Period {
  readonly kind: PeriodKind;
  /** First day, "2026-11-25", where chosen by hand; empty is open. */
  readonly fromDay: string;
  /** Last day, included. */
  readonly toDay: string;
}

export const ALL_TIME: Period = { kind: 'all', fromDay: '', toDay: '' };

export function isPeriodKind(text: string): text is PeriodKind {
  return Object.hasOwn(PERIOD_WORDS, text);
}

/** The times that a period means at `now`: from (included) and to (not included), null where open. Days are whole days on the reader's clock. */
export function periodRange(
  period: Period,
  now: Date,
): { readonly from: Date | null; readonly to: Date | null } {
  const tomorrow = new Date(now.getFullYear(), now.getMonth(), now.getDate() + 1);
  const monthsAgo = (months: number) => ({ from: dayMonthsBefore(now, months), to: tomorrow });
  switch (period.kind) {
    case 'days30':
      return { from: new Date(now.getFullYear(), now.getMonth(), now.getDate() - 29), to: tomorrow };
    case 'months3':
      return monthsAgo(3);
    case 'months6':
      return monthsAgo(6);
    case 'months12':
      return monthsAgo(12);
    case 'all':
      return { from: null, to: null };
    case 'dates': {
      const last = dayOf(period.toDay);
      return {
        from: dayOf(period.fromDay),
        to: last ? new Date(last.getFullYear(), last.getMonth(), last.getDate() + 1) : null,
      };
    }
  }
}

/** The same as first and last day (included), null where open: days mean the same on every clock. */
export function periodDays(
  period: Period,
  now: Date,
): { readonly fromDay: string | null; readonly toDay: string | null } {
  const { from, to } = periodRange(period, now);
  return {
    fromDay: from ? dayStamp(from) : null,
    toDay: to ? dayStamp(new Date(to.getFullYear(), to.getMonth(), to.getDate() - 1)) : null,
  };
}

/** What is wrong with dates chosen by hand, or null. */
export function faultOfPeriod(period: Period): string | null {
  if (period.kind !== 'dates') return null;
  const [from, to] = [dayOf(period.fromDay), dayOf(period.toDay)];
  return from && to && from > to ? m.theFirstDayLiesAfterThe() : null;
}

/** A date input's value as midnight on the reader's clock, or null. */
function dayOf(text: string): Date | null {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!parts) return null;
  const day = new Date(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3]));
  return Number.isNaN(day.getTime()) ? null : day;
}

/** The same day so many months before; the last day of the month where that month is shorter. */
function dayMonthsBefore(now: Date, months: number): Date {
  const first = new Date(now.getFullYear(), now.getMonth() - months, 1);
  const lastDay = new Date(first.getFullYear(), first.getMonth() + 1, 0).getDate();
  return new Date(first.getFullYear(), first.getMonth(), Math.min(now.getDate(), lastDay));
}
