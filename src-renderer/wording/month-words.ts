import { locale } from '../messages/language.ts';

/** The month that it is and those before it, the newest first, on the reader's calendar: "2026-11". */
export function lastMonths(now: Date, count: number): readonly string[] {
  return Array.from({ length: count }, (_, back) => {
    const month = new Date(now.getFullYear(), now.getMonth() - back, 1);
    return `${month.getFullYear()}-${String(month.getMonth() + 1).padStart(2, '0')}`;
  });
}

/** "2026-11" as "November 2026". */
export function monthLabel(month: string): string {
  return new Date(`${month}-15T12:00:00`).toLocaleDateString(locale(), { month: 'long', year: 'numeric' });
}

/** "11" as "November". */
export function monthOfAnyYear(month: string): string {
  return new Date(`2026-${month}-15T12:00:00`).toLocaleDateString(locale(), { month: 'long' });
}
