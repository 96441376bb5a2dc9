import { moneyWords, grams } from '../wording/format.ts';
import { timeLost } from '../wording/time-lost.ts';
import { m } from '../messages/en/charts.ts';

export interface ParetoEntry {
  readonly id: string;
  readonly label: string;
  readonly count: number;
  readonly minutesLost: number;
  readonly gramsScrapped: number;
  /** Null where the shop has not said what an hour costs. */
  readonly money: number | null;
}

/** By what entries are put in order. */
export const MEASURES = ['minutesLost', 'gramsScrapped', 'money'] as const;
export type Measure = (typeof MEASURES)[number];
export const MEASURE_WORDS: Readonly<Record<Measure, { readonly choice: string; readonly whole: string }>> = {
  minutesLost: { choice: m.timeLost(), whole: m.theTimeLost() },
  gramsScrapped: { choice: m.filamentScrapped(), whole: m.theFilamentScrapped() },
  money: { choice: m.money(), whole: m.theMoneyLost() },
};

export interface ParetoRow extends ParetoEntry {
  readonly amount: number;
  /** Share of all, 0–1. */
  readonly share: number;
  /** Share of this one and all before it. */
  readonly cumulative: number;
}

/** Entries by what they cost, most first, each with its share and the share so far. */
export function paretoOf(entries: readonly ParetoEntry[], measure: Measure): readonly ParetoRow[] {
  const amountOf = (one: ParetoEntry) => one[measure] ?? 0;
  const total = entries.reduce((sum, one) => sum + amountOf(one), 0);
  let soFar = 0;
  return entries
    .toSorted((a, b) => amountOf(b) - amountOf(a) || b.count - a.count)
    .map((one) => {
      soFar += amountOf(one);
      return {
        ...one,
        amount: amountOf(one),
        share: total > 0 ? amountOf(one) / total : 0,
        cumulative: total > 0 ? soFar / total : 0,
      };
    });
}

/** An amount in the words of its measure. */
export function amountWords(amount: number, measure: Measure, currency: string | null): string {
  if (measure === 'minutesLost') return timeLost(amount);
  return measure === 'gramsScrapped' ? grams(amount) : moneyWords(amount, currency ?? '');
}

/** The chart in a sentence; `what` names the entries in the plural ("causes"). */
export function paretoSentence(rows: readonly ParetoRow[], what: string, measure: Measure): string {
  const first = rows[0];
  if (!first || first.amount === 0)
    return m.nothingOfIsOnRecordFor({ whole: MEASURE_WORDS[measure].whole, what });
  const percent = Math.round(first.share * 100);
  const alone = m.tookOf({ first: first.label, percent, whole: MEASURE_WORDS[measure].whole });
  const half = rows.findIndex((row) => row.cumulative >= 0.5) + 1;
  if (rows.length < 3 || half <= 1) return `${alone}.`;
  return m.theFirstOfTookHalf({ alone, half, rowsCount: rows.length, what });
}
