import type { ShopCalendar } from '../recurrence/shop-calendar.ts';
import { documentTexts } from '../words/en/documents.ts';
import type { Day, Message, Moment } from '../words/message.ts';

const { m } = documentTexts;

/** Times and days of a report, by the shop's clock. */
export interface ReportWords {
  time(iso: string): Moment;
  day(iso: string): Day;
}

export function reportWords({ timeZone, wallTime }: ShopCalendar): ReportWords {
  return {
    time: (iso) => ({ moment: iso, timeZone }),
    day: (iso) => ({ day: wallTime(Date.parse(iso)).day }),
  };
}

/** Minutes as "45 min" or "3 h 20 min". */
export function minutesInWords(minutes: number): Message {
  const whole = Math.round(minutes);
  if (whole < 60) return m.minutes({ minutes: whole });
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  return rest === 0 ? m.hours({ hours }) : m.hoursMinutes({ hours, minutes: rest });
}

/** A figure of two decimals at most, its thousands parted. */
export function figureInWords(figure: number): Message {
  return m.figure({ count: Number(figure.toFixed(2)) });
}

/** 0.123 as "12 %"; the ends keep their doubt. */
export function shareInWords(probability: number): Message {
  if (probability > 0 && probability < 0.01) return m.shareUnder();
  if (probability < 1 && probability > 0.99) return m.shareOver();
  return m.share({ percent: Math.round(100 * probability) });
}
