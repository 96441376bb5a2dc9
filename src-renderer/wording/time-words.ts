import { locale } from '../messages/language.ts';

/** A moment as the reader's clock has it: "09:05" on the day of `today`, otherwise with the day, "24 Nov, 09:05". */
export function whenWords(iso: string, today: Date): string {
  const at = new Date(iso);
  const time = { hour: '2-digit', minute: '2-digit' } as const;
  if (at.toDateString() === today.toDateString()) return at.toLocaleTimeString(locale(), time);
  const year = at.getFullYear() === today.getFullYear() ? {} : { year: 'numeric' as const };
  return at.toLocaleString(locale(), { day: 'numeric', month: 'short', ...year, ...time });
}
