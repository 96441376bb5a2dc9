import type { MeterKind } from '../contract/shop-records.ts';

/** A reading of a printer's print-hour meter. */
export interface HourReading {
  readonly printerId: string;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly totalHours: number;
  /** What the figure is; a plain reading where nothing is said. */
  readonly kind?: MeterKind;
}

/**
 * Print hours of each printer between two times (ISO 8601), read off the meter by straight lines between readings and
 * held level outside them. A meter that was reset starts again from its new reading; a correction takes back the readings
 * since then that were above it. A fall of which nothing is said, as older casebooks hold them, counts as a reset.
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
    const valid = validReadings(own.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at)));
    let sum = 0;
    valid.forEach((reading, i) => {
      const before = valid[i - 1];
      if (!before) return;
      const [beginMs, endMs] = [Date.parse(before.at), Date.parse(reading.at)];
      const overlapMs = Math.min(end, endMs) - Math.max(start, beginMs);
      const printed = reading.startsAnew ? reading.totalHours : reading.totalHours - before.totalHours;
      if (overlapMs > 0 && endMs > beginMs) sum += (printed * overlapMs) / (endMs - beginMs);
    });
    hours.set(printerId, sum);
  }
  return hours;
}

interface ValidReading {
  readonly at: string;
  readonly totalHours: number;
  /** Hours before it were counted by a meter that is no longer this one. */
  readonly startsAnew: boolean;
}

/** The readings that still hold, oldest first: those that a later correction took back are gone. */
function validReadings(sorted: readonly HourReading[]): readonly ValidReading[] {
  const valid: ValidReading[] = [];
  for (const { at, totalHours, kind = 'read' } of sorted) {
    let startsAnew = kind === 'reset' || (kind === 'read' && totalHours < (valid.at(-1)?.totalHours ?? 0));
    if (kind === 'corrected') {
      while (!startsAnew && totalHours < (valid.at(-1)?.totalHours ?? 0))
        startsAnew = valid.pop()?.startsAnew ?? false;
    }
    valid.push({ at, totalHours, startsAnew });
  }
  return valid;
}
