import type { ShopCalendar } from '../recurrence/shop-calendar.ts';

/** How times, days and amounts are said in a report, by the shop's clock. */
export interface ReportWords {
  /** "3 Mar 2026, 14:05". */
  time(iso: string): string;
  /** "3 Mar 2026". */
  day(iso: string): string;
}

export function reportWords({ timeZone }: Pick<ShopCalendar, 'timeZone'>): ReportWords {
  const day = { day: 'numeric', month: 'short', year: 'numeric', timeZone } as const;
  return {
    time: (iso) => new Date(iso).toLocaleString('en-GB', { ...day, hour: '2-digit', minute: '2-digit' }),
    day: (iso) => new Date(iso).toLocaleDateString('en-GB', day),
  };
}

/** A day of the calendar ("2026-03-02") as "2 Mar 2026". */
export function dayInWords(day: string): string {
  return reportWords({ timeZone: 'UTC' }).day(`${day}T12:00:00Z`);
}

/** A month ("2026-03") as "March 2026". */
export function monthInWords(month: string): string {
  return new Date(`${month}-15T12:00:00Z`).toLocaleDateString('en-GB', {
    month: 'long',
    year: 'numeric',
    timeZone: 'UTC',
  });
}

/** Minutes as "45 min" or "3 h 20 min". */
export function minutesInWords(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return `${whole} min`;
  return whole % 60 === 0 ? `${Math.floor(whole / 60)} h` : `${Math.floor(whole / 60)} h ${whole % 60} min`;
}

/** "1 case", "12 cases". */
export function casesInWords(count: number): string {
  return count === 1 ? '1 case' : `${count} cases`;
}

/** 0.123 as "12 %"; the ends keep their doubt. */
export function shareInWords(probability: number): string {
  if (probability > 0 && probability < 0.01) return '< 1 %';
  if (probability < 1 && probability > 0.99) return '> 99 %';
  return `${Math.round(100 * probability)} %`;
}
