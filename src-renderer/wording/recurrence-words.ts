import type { Recurrence, RecurrenceRow } from '../../src-core/contract/casebook-view.ts';
import { chanceWords, expectedWords } from './chance-words.ts';
import { grams } from './format.ts';
import { timeLost } from './time-lost.ts';

/** Below this chance for a single look, one speaks of a recurrence. */
const ONE_LOOK = 0.05;

/** How many pairs of printer and cause were compared, and how small a chance must be to stand out among so many. */
export interface Comparisons {
  readonly causes: number;
  readonly printers: number;
  readonly pairs: number;
  /** Bonferroni's limit: 5 % shared out among all pairs, 0–1. */
  readonly limit: number;
}

/** Pairs without a case were looked at as well: every cause that was met, on every printer with cases. */
export function comparisonsOf(rows: readonly RecurrenceRow[]): Comparisons {
  const causes = new Set(rows.map((row) => row.cause)).size;
  const printers = new Set(rows.map((row) => row.printerId)).size;
  const pairs = causes * printers;
  return { causes, printers, pairs, limit: pairs === 0 ? ONE_LOOK : ONE_LOOK / pairs };
}

export type Reading = 'stands out' | 'worth watching' | 'could be chance';

/** What a chance means among so many looks. A single case comes back nowhere, however rare it is. */
export function readingOf(row: RecurrenceRow, comparisons: Comparisons): Reading {
  if (row.count < 2) return 'could be chance';
  if (row.probabilityOfAtLeast < comparisons.limit) return 'stands out';
  return row.probabilityOfAtLeast < ONE_LOOK ? 'worth watching' : 'could be chance';
}

/** The one line about many comparisons. */
export function comparisonsSentence(comparisons: Comparisons): string {
  const { causes, printers, pairs, limit } = comparisons;
  if (pairs < 2) return '';
  const byAccident = Math.max(1, Math.round(pairs * ONE_LOOK));
  return (
    `${pairs} pairs of printer and cause were looked at (${causes} ${causes === 1 ? 'cause' : 'causes'} on ${printers} ${printers === 1 ? 'printer' : 'printers'}), ` +
    `so a few small chances are to be expected: up to ${byAccident} below 5 % by chance alone. ` +
    `Only a chance below ${chanceWords(limit).replace('below ', '')} stands out among so many.`
  );
}

/** The most important thing that the period says, in plain words. */
export function leadingSentence(recurrence: Recurrence): string {
  if (recurrence.caseCount === 0) return 'No case was closed in this period.';
  const comparisons = comparisonsOf(recurrence.rows);
  const strongest = recurrence.rows.find((row) => readingOf(row, comparisons) === 'stands out');
  if (strongest) return `${pairSentence(strongest)} – far more than chance.`;
  const watched = recurrence.rows.find((row) => readingOf(row, comparisons) === 'worth watching');
  if (watched) return `Nothing stands out for certain. Closest to it: ${pairSentence(watched)}.`;
  const costliest = recurrence.causes.toSorted((a, b) => b.minutesLost - a.minutesLost)[0];
  if (!costliest) return 'No cause comes back on any printer more often than chance would bring.';
  return (
    'No cause comes back on any printer more often than chance would bring. ' +
    `Most time went into “${costliest.causeLabel}”: ${timeLost(costliest.minutesLost)} in ${casesWords(costliest.count)}.`
  );
}

function pairSentence(row: RecurrenceRow): string {
  return (
    `${row.causeLabel} on ${row.printerLabel}: ${casesWords(row.count)} against about ${expectedWords(row.expectedCount)} expected ` +
    `(${chanceWords(row.probabilityOfAtLeast)} by chance)`
  );
}

export function casesWords(count: number): string {
  return count === 1 ? '1 case' : `${count} cases`;
}

/** The period's totals in one line. */
export function periodTotals(recurrence: Recurrence): string {
  const { caseCount, minutesLost, gramsScrapped } = recurrence;
  return `${casesWords(caseCount)} closed, ${timeLost(minutesLost)} lost, ${grams(gramsScrapped)} of filament scrapped.`;
}
