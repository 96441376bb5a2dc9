import type { MonthHumidity, Season } from '../contract/season-view.ts';
import type { RoomClimate } from '../contract/spool-life.ts';
import { rankCorrelation } from '../statistics/rank-correlation.ts';
import { compareRates } from '../statistics/rate-comparison.ts';
import { monthlyRates } from './monthly-rates.ts';
import type { PrintedStretch } from './print-hours.ts';
import type { ClosedCase } from './report.ts';
import type { ShopCalendar } from './shop-calendar.ts';

/** Below this many months no order of them is rare enough to stand out: six can be put in order in 720 ways. */
const LEAST_MONTHS = 6;
const LEAST_CASES = 5;
/** Percent of relative humidity: months closer together than this have had the same air. */
const LEAST_SPREAD = 5;
const CLEAR = 0.05;

type Month = Season['months'][number];

/**
 * Moisture-related cases and the rest by month beside the room's humidity, and whether the one goes with the other. `isMoisture` says
 * of a case whether one of its causes lets steam into the melt. Humidity is what was read for a month, otherwise what the
 * shop's room air says is typical of it; one figure for all months says nothing of a season and is left out.
 */
export function seasonOf(parts: {
  readonly cases: readonly ClosedCase[];
  readonly isMoisture: (one: ClosedCase) => boolean;
  readonly stretches: readonly PrintedStretch[];
  readonly calendar: ShopCalendar;
  readonly fromMs: number;
  readonly toMs: number;
  readonly climate: RoomClimate;
  readonly entered: MonthHumidity;
}): Omit<Season, 'revision'> {
  const { cases, isMoisture, stretches, calendar, fromMs, toMs } = parts;
  const all = monthlyRates(cases, stretches, calendar, fromMs, toMs).months;
  const moist = new Map(
    monthlyRates(cases.filter(isMoisture), stretches, calendar, fromMs, toMs).months.map((one) => [
      one.month,
      one.count,
    ]),
  );
  const months = all.map(({ month, count, printHours }): Month => {
    const moisture = moist.get(month) ?? 0;
    return { month, ...humidityOf(parts, month), moisture, rest: count - moisture, printHours };
  });
  return { months, ...judged(months), needed: { months: LEAST_MONTHS, cases: LEAST_CASES } };
}

function humidityOf(
  { climate, entered }: { readonly climate: RoomClimate; readonly entered: MonthHumidity },
  month: string,
): Pick<Month, 'percentRh' | 'source'> {
  const own = entered[month];
  if (own !== undefined) return { percentRh: own, source: 'entered' };
  const typical = climate.kind === 'by-month' ? climate.months[Number(month.slice(5)) - 1] : undefined;
  return typical === undefined
    ? { percentRh: null, source: 'missing' }
    : { percentRh: typical.percentRh, source: 'typical' };
}

type Judged = Omit<Season, 'revision' | 'months' | 'needed'>;

interface UsedMonth extends Month {
  readonly percentRh: number;
}

function judged(months: readonly Month[]): Judged {
  const known = months.filter((one): one is UsedMonth => one.percentRh !== null);
  const printed = known.filter(({ printHours }) => printHours > 0);
  const against = printed.length >= LEAST_MONTHS ? 'print-hours' : 'cases';
  const withCases = known.filter(({ moisture, rest }) => moisture + rest > 0);
  // Where neither will do it is said of whichever has more months.
  const used = against === 'print-hours' ? printed : withCases;
  const nothing = { against, used: used.length, moisture: null, rest: null, halves: null } as const;
  if (used.length < LEAST_MONTHS) return { ...nothing, verdict: 'few-months' };
  const count = used.reduce((sum, one) => sum + one.moisture, 0);
  if (count < LEAST_CASES) return { ...nothing, verdict: 'few-cases' };
  const figures = used.map(({ percentRh }) => percentRh);
  if (Math.max(...figures) - Math.min(...figures) < LEAST_SPREAD) return { ...nothing, verdict: 'same-air' };
  const withHumidity = (of: (one: UsedMonth) => number) =>
    rankCorrelation(used.map((one) => [one.percentRh, of(one)] as const));
  const isByHours = against === 'print-hours';
  const moisture = withHumidity(
    isByHours ? (one) => one.moisture / one.printHours : (one) => one.moisture / (one.moisture + one.rest),
  );
  const rest = isByHours ? withHumidity((one) => one.rest / one.printHours) : null;
  return {
    ...nothing,
    moisture,
    rest,
    verdict: verdictOf(moisture, rest),
    halves: isByHours ? halvesOf(used) : null,
  };
}

type Correlation = ReturnType<typeof rankCorrelation>;

function verdictOf(moisture: Correlation, rest: Correlation): Judged['verdict'] {
  if (!moisture || moisture.chance > CLEAR) return 'chance';
  if (moisture.coefficient < 0) return 'against-humidity';
  return rest && rest.chance <= CLEAR && rest.coefficient > 0 ? 'both' : 'with-humidity';
}

/** The damper months against the drier ones, split where half of them lie above; null where one side has nothing printed. */
function halvesOf(used: readonly UsedMonth[]): Judged['halves'] {
  const sorted = used.map(({ percentRh }) => percentRh).sort((a, b) => a - b);
  const highest = sorted.at(-1) ?? 0;
  let above = sorted[Math.ceil(sorted.length / 2) - 1] ?? 0;
  // Where more than half of the months share the highest figure: whatever lies below that is dry.
  if (above === highest) above = sorted.findLast((one) => one < highest) ?? highest;
  const half = (months: readonly UsedMonth[]) => ({
    months: months.length,
    count: months.reduce((sum, one) => sum + one.moisture, 0),
    printHours: months.reduce((sum, one) => sum + one.printHours, 0),
  });
  const damp = half(used.filter(({ percentRh }) => percentRh > above));
  const dry = half(used.filter(({ percentRh }) => percentRh <= above));
  if (!(damp.printHours > 0 && dry.printHours > 0)) return null;
  const { ratio, low, high } = compareRates(
    { count: damp.count, exposure: damp.printHours },
    { count: dry.count, exposure: dry.printHours },
  );
  return {
    above,
    damp,
    dry,
    ratio: Number.isFinite(ratio) ? ratio : null,
    low,
    high: Number.isFinite(high) ? high : null,
  };
}
