import { fixed } from '../messages/figures.ts';
import { locale } from '../messages/language.ts';
import type { Recurrence } from '../../src-core/contract/recurrence-view.ts';
import { listed, sentences } from '../messages/lists.ts';
import { m } from '../messages/en/charts.ts';

/** "Nov 2026"; short: "Nov". */
export function monthWords(month: string, isShort = false): string {
  const [year, number] = month.split('-').map(Number);
  const day = new Date(year ?? 1970, (number ?? 1) - 1, 1);
  return day.toLocaleDateString(locale(), isShort ? { month: 'short' } : { month: 'short', year: 'numeric' });
}

/** A rate per 1,000 print hours: one decimal below ten. */
export function rateWords(rate: number): string {
  return rate >= 10 ? fixed(rate, 0) : fixed(rate, 1);
}

/** The chart in a sentence. */
export function monthsSentence({ months, centre }: Pick<Recurrence, 'months' | 'centre'>): string {
  if (months.length === 0) return m.noCasesInThisPeriod();
  if (centre === null) return m.noPrintHoursAreOnRecord();
  const mean = m.theMeanIsCasesIn1({ rate: rateWords(centre) });
  const out = months.filter(({ isOut }) => isOut);
  if (out.length === 0) return m.noMonthLiesOutsideWhatChance({ mean });
  const above = out.filter(({ rate }) => (rate ?? 0) > centre).map(({ month }) => monthWords(month));
  const below = out.filter(({ rate }) => (rate ?? 0) < centre).map(({ month }) => monthWords(month));
  const said = [
    above.length > 0 ? m.moreThanChanceExplains({ above: listed(above) }) : '',
    below.length > 0 ? m.fewerThanChanceExplains({ below: listed(below) }) : '',
  ];
  return sentences([mean, ...said]);
}
