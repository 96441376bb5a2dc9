/** A day, hour and month by the clock on the wall. */
export interface WallTime {
  /** "2026-11-26". */
  readonly day: string;
  /** 0 to 23. */
  readonly hour: number;
}

/** The shop's calendar: what day it was there at a time, and when a day begins there. */
export interface ShopCalendar {
  readonly timeZone: string;
  wallTime(ms: number): WallTime;
  /** When a day ("2026-11-26") begins, in ms since 1970. */
  startOf(day: string): number;
}

/** Whether a text names a time zone ("Europe/Berlin") that this system knows. */
export function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en-GB', { timeZone: name }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Throws RangeError for a zone that does not exist. */
export function shopCalendar(timeZone: string): ShopCalendar {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    hourCycle: 'h23',
  });
  const asked = (ms: number): WallTime => {
    const parts = new Map(format.formatToParts(ms).map(({ type, value }) => [type, value]));
    const part = (name: Intl.DateTimeFormatPartTypes) => parts.get(name) ?? '';
    return {
      day: `${part('year').padStart(4, '0')}-${part('month')}-${part('day')}`,
      hour: Number(part('hour')),
    };
  };
  // Asking the system takes microseconds, and a casebook holds a million cases. No zone is changed to and fro within a day: where
  // its clock is as far ahead at the beginning of a day (UTC) as at its end, it is so all day.
  const aheadOn = new Map<number, number | null>();
  const aheadMs = (ms: number) => {
    const { day, hour } = asked(ms);
    return Date.parse(`${day}T${String(hour).padStart(2, '0')}:00:00Z`) - ms;
  };
  const aheadAllDay = (day: number): number | null => {
    const known = aheadOn.get(day);
    if (known !== undefined) return known;
    // At full hours UTC the clock's minutes are dropped: zones of half and quarter hours ahead are asked each time.
    const ahead = [0, 1, 2, 3].map((quarter) => aheadMs(day * DAY_MS + (quarter * HOUR_MS) / 4));
    const [first = 0] = ahead;
    const isWhole = ahead.every((one, quarter) => one === first - (quarter * HOUR_MS) / 4);
    const all = isWhole && aheadMs((day + 1) * DAY_MS) === first ? first : null;
    aheadOn.set(day, all);
    return all;
  };
  const wallTime = (ms: number): WallTime => {
    const ahead = aheadAllDay(Math.floor(ms / DAY_MS));
    if (ahead === null) return asked(ms);
    const there = new Date(ms + ahead);
    const year = there.getUTCFullYear();
    if (year < 1000 || year > 9999) return asked(ms);
    return { day: there.toISOString().slice(0, 10), hour: there.getUTCHours() };
  };
  return {
    timeZone,
    wallTime,
    startOf(day) {
      // No zone is more than 15 hours away; within the day before and after, the first quarter hour that bears its name.
      const midnightUtc = Date.parse(`${day}T00:00:00Z`);
      let [low, high] = [midnightUtc - 15 * HOUR_MS, midnightUtc + 15 * HOUR_MS];
      while (high - low > 1) {
        const middle = Math.floor((low + high) / 2);
        if (wallTime(middle).day >= day) high = middle;
        else low = middle;
      }
      return high;
    },
  };
}

/** The month of a day: "2026-11". */
export function monthOf(day: string): string {
  return day.slice(0, 7);
}

/** The day so many days later (or earlier), by the calendar. */
export function dayAfter(day: string, days: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * 24 * HOUR_MS).toISOString().slice(0, 10);
}

/** The first day of the month after. */
export function nextMonth(month: string): string {
  const [year = 1970, number = 1] = month.split('-').map(Number);
  return number === 12
    ? `${String(year + 1).padStart(4, '0')}-01`
    : `${String(year).padStart(4, '0')}-${String(number + 1).padStart(2, '0')}`;
}
