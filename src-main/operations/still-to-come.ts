const ONE_DAY_MS = 24 * 3_600_000;
/** Nothing that this casebook holds was done before; a year like 0026 is a slip of the keys. */
const EARLIEST_MS = Date.parse('2000-01-01T00:00:00Z');

/** Whether a time (ISO 8601) lies in the future. Clocks differ, but not by days. */
export function isStillToCome(time: string, now: Date): boolean {
  return Date.parse(time) > now.getTime() + ONE_DAY_MS;
}

/** Whether a time (ISO 8601) lies before anything that can be meant. */
export function isBeforeOurTime(time: string): boolean {
  return !(Date.parse(time) >= EARLIEST_MS);
}
