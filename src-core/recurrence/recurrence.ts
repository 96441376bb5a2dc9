import { binomialAtLeast } from '../statistics/binomial.ts';
import { garwoodLimits } from '../statistics/garwood-limits.ts';

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
  /** What the rate of the other printers leads to expect in this printer's hours. */
  readonly expectedCount: number;
  /** Exact chance (0-1) of this many or more of all cases of the cause on this printer if all printers were alike. */
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
 * A printer is held against the others, never against a rate that it has made itself: expected is the others' rate times
 * its own hours. Were all printers alike, the cases of a cause would be shared out among them by their hours, a multinomial
 * of which one printer's count is a binomial; with two printers that is the conditional test of two Poisson rates
 * (Przyborowski and Wilenski, Biometrika 31, 1940, 313-323). Where a printer has all the hours there is nothing to hold it
 * against: its own count is expected, with chance 1. Printers without hours in the period are left out: nothing can be
 * expected of them.
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
    for (const [printerId, own] of groupBy(ofCause, (one) => one.printerId ?? '')) {
      const hours = printHours.get(printerId) ?? 0;
      const limits = garwoodLimits(own.length, 0.95);
      const othersHours = totalHours - hours;
      rows.push({
        printerId,
        cause,
        printHours: hours,
        count: own.length,
        expectedCount: othersHours > 0 ? ((ofCause.length - own.length) / othersHours) * hours : own.length,
        probabilityOfAtLeast: binomialAtLeast(own.length, ofCause.length, hours / totalHours),
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
