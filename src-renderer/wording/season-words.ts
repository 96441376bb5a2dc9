import { fixed } from '../messages/figures.ts';
import { locale } from '../messages/language.ts';
import { listed, sentences } from '../messages/lists.ts';
import type { Season } from '../../src-core/contract/season-view.ts';
import { chanceWords } from './chance-words.ts';
import { monthWords, rateWords } from '../charts/months.ts';
import { casesWords } from './recurrence-words.ts';
import { m } from '../messages/en/season-words.ts';

type SeasonMonth = Season['months'][number];

/** What may be concluded, in one sentence. */
export function seasonVerdict({ verdict, used, needed, months, against }: Season): string {
  const byHours = against === 'print-hours';
  const usable = byHours ? m.aHumidityAndPrintHours() : m.aHumidityAndCases();
  switch (verdict) {
    case 'with-humidity':
      return byHours ? m.moreFrequent() : m.moreFrequentAmongAllCases();
    case 'both':
      return m.moistureRelatedCasesWereMoreFrequentIn();
    case 'against-humidity':
      return byHours ? m.lessFrequent() : m.lessFrequentAmongAllCases();
    case 'chance':
      return byHours ? m.noMoreFrequent() : m.noMoreFrequentAmongAllCases();
    case 'few-months':
      return m.itCannotBeToldYetOf({ used, months: needed.months, usable });
    case 'few-cases': {
      const all = casesWords(moistureIn(months));
      if (moistureIn(months) < needed.cases) return m.itCannotBeToldYetWith({ all, cases: needed.cases });
      const counted = months.filter(
        ({ percentRh, printHours }) => percentRh !== null && (printHours > 0 || !byHours),
      );
      return m.itCannotBeToldYetOfWith({ all, moistureIn: moistureIn(counted), usable, cases: needed.cases });
    }
    case 'same-air':
      return m.itCannotBeToldTheAir();
  }
}

function moistureIn(months: readonly SeasonMonth[]): number {
  return months.reduce((sum, one) => sum + one.moisture, 0);
}

/** Damper months beside drier ones: "Above 55 %: 12 cases in 900 print hours; up to that: 3 in 950. That is 4.2 times as often, 1.1 to 23." */
export function halvesWords({ halves }: Pick<Season, 'halves'>): string | null {
  if (halves === null) return null;
  const { above, damp, dry, ratio, low, high } = halves;
  const side = (half: typeof damp) =>
    m.inPrintHours({
      cases: casesWords(half.count),
      printHours: Math.round(half.printHours).toLocaleString(locale()),
    });
  const limits =
    high === null
      ? m.atLeastTimesWith95Confidence({ times: times(low) })
      : m.toWith95Confidence({ times: times(low), times2: times(high) });
  const often =
    ratio === null
      ? m.everyOneCameInTheDamper({ limits })
      : m.inTheDamperMonthsThatIs({ times: times(ratio), limits });
  return m.monthsAboveHumidityTheOthers({ above, side: side(damp), side2: side(dry), often });
}

/** What it rests on, for those who ask. */
export function seasonMethod({ moisture, rest, used, against }: Season): string | null {
  if (moisture === null) return null;
  const one = ({ coefficient, chance }: NonNullable<Season['moisture']>) =>
    m.byChanceAloneIn({ replace: fixed(coefficient, 2).replace('-', '−'), chance: chanceWords(chance) });
  const what = against === 'print-hours' ? m.casesPerPrintHour() : m.theirShareOfAllCasesAs();
  return sentences([
    rest === null
      ? m.rankCorrelation({ used, one: one(moisture) })
      : m.rankCorrelationBesideOthers({ used, one: one(moisture), others: one(rest) }),
    m.heldAgainst({ orders: moisture.isExact ? m.everyOrderOfTheMonths() : m.n20000RandomOrdersOf(), what }),
  ]);
}

/** Whatever is found: that two things go together is not that one makes the other. */
export const SEASON_CAUTION = m.dampMonthsDifferFromDryOnes();

export function humidityWords({ percentRh, source }: Pick<SeasonMonth, 'percentRh' | 'source'>): string {
  if (percentRh === null) return m.missing();
  return source === 'entered' ? `${percentRh} %` : m.typical({ percentRh });
}

/** Months whose humidity nobody has said: "missing for Mar 2026 and Apr 2026". */
export function missingWords({ months }: Pick<Season, 'months'>): string | null {
  const missing = months.filter(({ source }) => source === 'missing').map(({ month }) => monthWords(month));
  if (missing.length === 0) return null;
  if (missing.length === months.length) return m.noHumidityIsOnRecordFor();
  const more = missing.length > 4 ? [m.more({ missingCount: missing.length - 4 })] : [];
  return m.humidityIsMissingFor({ shown: listed([...missing.slice(0, 4), ...more]) });
}

/** Cases per 1,000 print hours; null where nothing was printed. */
export function perThousandHours(count: number, printHours: number): number | null {
  return printHours > 0 ? (1000 * count) / printHours : null;
}

export function perThousandWords(count: number, printHours: number): string {
  const rate = perThousandHours(count, printHours);
  return rate === null ? '–' : rateWords(rate);
}

function times(ratio: number): string {
  return ratio >= 10 ? fixed(ratio, 0) : ratio.toPrecision(2);
}
