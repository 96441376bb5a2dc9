import type { Season } from '../../src-core/contract/season-view.ts';
import { chanceWords } from './chance-words.ts';
import { monthWords, rateWords } from '../charts/months.ts';
import { casesWords } from './recurrence-words.ts';

type SeasonMonth = Season['months'][number];

/** What may be concluded, in one sentence. */
export function seasonVerdict({ verdict, used, needed, months, against }: Season): string {
  const byHours = against === 'print-hours';
  const than = byHours ? '' : ' among all cases';
  const usable = `a humidity and ${byHours ? 'print hours' : 'cases'}`;
  switch (verdict) {
    case 'with-humidity':
      return `Moisture-related cases were more frequent${than} in damp months, more than chance explains.`;
    case 'both':
      return 'Moisture-related cases were more frequent in damp months, but so were all others: something beside the water goes with the season.';
    case 'against-humidity':
      return `Moisture-related cases were less frequent${than} in damp months. Damp air does not explain that; look at what else changed with the season.`;
    case 'chance':
      return `Moisture-related cases were no more frequent${than} in damp months than chance explains.`;
    case 'few-months':
      return `It cannot be told yet: ${used} of the ${needed.months} months that it takes have ${usable}.`;
    case 'few-cases': {
      const all = casesWords(moistureIn(months));
      if (moistureIn(months) < needed.cases)
        return `It cannot be told yet: ${all} with moisture as the cause, of the ${needed.cases} that it takes.`;
      const counted = months.filter(
        ({ percentRh, printHours }) => percentRh !== null && (printHours > 0 || !byHours),
      );
      return `It cannot be told yet: of ${all} with moisture as the cause ${moistureIn(counted)} came in months with ${usable}; it takes ${needed.cases}.`;
    }
    case 'same-air':
      return 'It cannot be told: the air was much the same in all these months.';
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
    `${casesWords(half.count)} in ${Math.round(half.printHours).toLocaleString('en-GB')} print hours`;
  const limits =
    high === null
      ? `at least ${times(low)} times with 95 % confidence`
      : `${times(low)} to ${times(high)} with 95 % confidence`;
  const often =
    ratio === null
      ? `Every one came in the damper months (${limits})`
      : `In the damper months that is ${times(ratio)} times as often (${limits})`;
  return `Months above ${above} % humidity: ${side(damp)}; the others: ${side(dry)}. ${often}.`;
}

/** What it rests on, for those who ask. */
export function seasonMethod({ moisture, rest, used, against }: Season): string | null {
  if (moisture === null) return null;
  const one = ({ coefficient, chance }: NonNullable<Season['moisture']>) =>
    `${coefficient.toFixed(2).replace('-', '−')}, by chance alone in ${chanceWords(chance)}`;
  const what =
    against === 'print-hours'
      ? 'cases per print hour'
      : 'their share of all cases, as no print hours are on record';
  return `Rank correlation (Spearman) of humidity and moisture-related cases over ${used} months: ${one(moisture)}${
    rest === null ? '' : `; of all other cases: ${one(rest)}`
  }. Held against ${moisture.isExact ? 'every order of the months' : '20,000 random orders of the months'}; ${what}.`;
}

/** Whatever is found: that two things go together is not that one makes the other. */
export const SEASON_CAUTION =
  'Damp months differ from dry ones in more than their air: heat, orders, people. This shows what goes together, not what makes what.';

export function humidityWords({ percentRh, source }: Pick<SeasonMonth, 'percentRh' | 'source'>): string {
  if (percentRh === null) return 'missing';
  return source === 'entered' ? `${percentRh} %` : `${percentRh} %, typical`;
}

/** Months whose humidity nobody has said: "missing for Mar 2026 and Apr 2026". */
export function missingWords({ months }: Pick<Season, 'months'>): string | null {
  const missing = months.filter(({ source }) => source === 'missing').map(({ month }) => monthWords(month));
  if (missing.length === 0) return null;
  if (missing.length === months.length) return 'No humidity is on record for any of these months.';
  const shown = missing.slice(0, 4).join(', ');
  return `Humidity is missing for ${shown}${missing.length > 4 ? ` and ${missing.length - 4} more` : ''}.`;
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
  return ratio >= 10 ? ratio.toFixed(0) : ratio.toPrecision(2);
}
