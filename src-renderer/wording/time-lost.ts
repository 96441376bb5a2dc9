import { locale } from '../messages/language.ts';
import { m } from '../messages/en/time-lost.ts';

/** Time of people and machines that was lost, in minutes and hours; not in days, which nobody works through: "45 min", "6 h 30 min", "58 h". */
export function timeLost(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return m.min({ whole });
  if (whole >= 600) return m.h({ whole: Math.round(whole / 60).toLocaleString(locale()) });
  const rest = whole % 60;
  return rest === 0 ? m.h({ whole: whole / 60 }) : m.hMin({ whole: Math.floor(whole / 60), rest });
}
