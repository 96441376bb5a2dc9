const ONE_DAY_MS = 24 * 3_600_000;

/** Whether a time (ISO 8601) lies in the future. Clocks differ, but not by days. */
export function isStillToCome(time: string, now: Date): boolean {
  return Date.parse(time) > now.getTime() + ONE_DAY_MS;
}
