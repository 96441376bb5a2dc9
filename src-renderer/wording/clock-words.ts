import { locale } from '../messages/language.ts';

/** The time of day on the reader's clock: "09:05". */
export function timeOfDay(iso: string): string {
  return new Date(iso).toLocaleTimeString(locale(), { hour: '2-digit', minute: '2-digit' });
}

/** A day for file names, on the reader's clock: "2026-11-25". */
export function dayStamp(now: Date): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
