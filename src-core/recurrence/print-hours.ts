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

/** Hours that a printer printed, evenly, between two readings (ms since 1970). */
export interface PrintedStretch {
  readonly fromMs: number;
  readonly toMs: number;
  readonly hours: number;
}

/**
 * What each printer printed from reading to reading, oldest first. A meter that was reset starts again from its new reading; a
 * correction takes back the readings since then that were above it. A fall of which nothing is said, as older casebooks hold
 * them, counts as a reset.
 */
export function printedStretches(
  readings: readonly HourReading[],
): ReadonlyMap<string, readonly PrintedStretch[]> {
  const stretches = new Map<string, readonly PrintedStretch[]>();
  for (const [printerId, own] of Map.groupBy(readings, (reading) => reading.printerId)) {
    const valid = validReadings(own.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at)));
    stretches.set(
      printerId,
      valid.flatMap((reading, i) => {
        const before = valid[i - 1];
        if (!before) return [];
        const [fromMs, toMs] = [Date.parse(before.at), Date.parse(reading.at)];
        const hours = reading.startsAnew ? reading.totalHours : reading.totalHours - before.totalHours;
        return toMs > fromMs ? [{ fromMs, toMs, hours }] : [];
      }),
    );
  }
  return stretches;
}

/** Print hours of some stretches between two times (ms since 1970), by straight lines between readings, level outside them. */
export function hoursWithin(stretches: readonly PrintedStretch[], fromMs: number, toMs: number): number {
  return stretches.reduce((sum, one) => {
    const overlapMs = Math.min(toMs, one.toMs) - Math.max(fromMs, one.fromMs);
    return overlapMs > 0 ? sum + (one.hours * overlapMs) / (one.toMs - one.fromMs) : sum;
  }, 0);
}

/** Print hours of each printer between two times (ISO 8601). */
export function printHoursBetween(
  readings: readonly HourReading[],
  from: string,
  to: string,
): ReadonlyMap<string, number> {
  const hours = new Map<string, number>();
  for (const [printerId, stretches] of printedStretches(readings))
    hours.set(printerId, hoursWithin(stretches, Date.parse(from), Date.parse(to)));
  return hours;
}

/** A clock that runs while printers print, from a time on: for when in their hours something came. */
export interface WorkingClock {
  readonly totalHours: number;
  /** Print hours from the start to a time (ms since 1970). */
  hoursAt(ms: number): number;
  /** The time at which so many print hours had gone by. */
  msAt(hours: number): number;
}

/** The clock of all these stretches together between two times (ms since 1970). */
export function workingClock(
  stretches: readonly PrintedStretch[],
  fromMs: number,
  toMs: number,
): WorkingClock {
  // How fast the clock runs changes only where a stretch begins or ends.
  const turns = stretches
    .flatMap((one) => {
      const hoursPerMs = one.hours / (one.toMs - one.fromMs);
      return [
        { ms: Math.min(toMs, Math.max(fromMs, one.fromMs)), by: hoursPerMs },
        { ms: Math.min(toMs, Math.max(fromMs, one.toMs)), by: -hoursPerMs },
      ];
    })
    .sort((a, b) => a.ms - b.ms);
  const times = [fromMs];
  const hours = [0];
  let [at, soFar, speed] = [fromMs, 0, 0];
  for (const { ms, by } of [...turns, { ms: toMs, by: 0 }]) {
    if (ms > at) {
      soFar += Math.max(0, speed) * (ms - at);
      at = ms;
      times.push(at);
      hours.push(soFar);
    }
    speed += by;
  }
  return {
    totalHours: soFar,
    hoursAt: (ms) => between(times, hours, ms),
    msAt: (wanted) => between(hours, times, wanted),
  };
}

/** The value on the broken line through the points, level outside them; `xs` never fall. */
function between(xs: readonly number[], ys: readonly number[], x: number): number {
  let [low, high] = [0, xs.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((xs[middle] ?? Infinity) >= x) high = middle;
    else low = middle + 1;
  }
  if (low === xs.length) return ys.at(-1) ?? 0;
  const [x1 = 0, y1 = 0, x0, y0] = [xs[low], ys[low], xs[low - 1], ys[low - 1]];
  return x0 === undefined || y0 === undefined ? y1 : y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
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
