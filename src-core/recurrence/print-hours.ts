/** A reading of a printer's print-hour meter. */
export interface HourReading {
  readonly printerId: string;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly totalHours: number;
}

/**
 * Print hours of each printer between two times (ISO 8601), read off the meter by straight lines between readings and
 * held level outside them. A meter that was reset (a fall) starts again from its new reading.
 */
export function printHoursBetween(
  readings: readonly HourReading[],
  from: string,
  to: string,
): ReadonlyMap<string, number> {
  const start = Date.parse(from);
  const end = Date.parse(to);
  const byPrinter = new Map<string, HourReading[]>();
  for (const reading of readings)
    byPrinter.set(reading.printerId, [...(byPrinter.get(reading.printerId) ?? []), reading]);
  const hours = new Map<string, number>();
  for (const [printerId, own] of byPrinter) {
    const sorted = own.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at));
    let sum = 0;
    sorted.forEach((reading, i) => {
      const before = sorted[i - 1];
      if (!before) return;
      const [beginMs, endMs] = [Date.parse(before.at), Date.parse(reading.at)];
      const overlapMs = Math.min(end, endMs) - Math.max(start, beginMs);
      const printed =
        reading.totalHours >= before.totalHours ? reading.totalHours - before.totalHours : reading.totalHours;
      if (overlapMs > 0 && endMs > beginMs) sum += (printed * overlapMs) / (endMs - beginMs);
    });
    hours.set(printerId, sum);
  }
  return hours;
}
