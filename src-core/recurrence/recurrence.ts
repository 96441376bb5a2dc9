import { garwoodLimits } from '../statistics/garwood-limits.ts';
import { poissonAtLeast } from '../statistics/poisson.ts';

/** One confirmed cause of one closed case. */
export interface ConfirmedCase {
  readonly printerId: string | null;
  readonly cause: string;
  readonly minutesLost: number;
  readonly gramsScrapped: number;
}

export interface RecurrenceOnPrinter {
  readonly printerId: string;
  readonly cause: string;
  readonly printHours: number;
  readonly count: number;
  /** What the shop's rate of this cause leads to expect in this printer's hours. */
  readonly expectedCount: number;
  /** Exact Poisson chance of this many or more at the expected count. */
  readonly probabilityOfAtLeast: number;
  readonly ratePer1000Hours: number;
  /** Garwood 95 % limits of that rate. */
  readonly rateLow: number;
  readonly rateHigh: number;
  readonly minutesLost: number;
  readonly gramsScrapped: number;
}

/**
 * Which causes came back on which printer, most surprising first.
 *
 * The shop's rate of a cause is its number of cases on all printers over all their print hours; a printer's expected
 * count is that rate times its own hours, so the counts of all printers add up to what was expected of all.
 * Printers without hours in the period are left out: nothing can be expected of them.
 */
export function recurrencesOf(
  cases: readonly ConfirmedCase[],
  printHours: ReadonlyMap<string, number>,
): readonly RecurrenceOnPrinter[] {
  const counted = cases.filter((one) => one.printerId !== null && (printHours.get(one.printerId) ?? 0) > 0);
  const totalHours = [...printHours.values()].reduce((sum, hours) => sum + hours, 0);
  const byCause = groupBy(counted, (one) => one.cause);
  const rows: RecurrenceOnPrinter[] = [];
  for (const [cause, ofCause] of byCause) {
    const shopRatePerHour = ofCause.length / totalHours;
    for (const [printerId, own] of groupBy(ofCause, (one) => one.printerId ?? '')) {
      const hours = printHours.get(printerId) ?? 0;
      const limits = garwoodLimits(own.length, 0.95);
      const expectedCount = shopRatePerHour * hours;
      rows.push({
        printerId,
        cause,
        printHours: hours,
        count: own.length,
        expectedCount,
        probabilityOfAtLeast: poissonAtLeast(own.length, expectedCount),
        ratePer1000Hours: (own.length / hours) * 1000,
        rateLow: (limits.low / hours) * 1000,
        rateHigh: (limits.high / hours) * 1000,
        minutesLost: own.reduce((sum, one) => sum + one.minutesLost, 0),
        gramsScrapped: own.reduce((sum, one) => sum + one.gramsScrapped, 0),
      });
    }
  }
  return rows.sort((a, b) => a.probabilityOfAtLeast - b.probabilityOfAtLeast || b.count - a.count);
}

function groupBy<T>(entries: readonly T[], keyOf: (entry: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const entry of entries) {
    const key = keyOf(entry);
    const group = groups.get(key);
    if (group) group.push(entry);
    else groups.set(key, [entry]);
  }
  return groups;
}
