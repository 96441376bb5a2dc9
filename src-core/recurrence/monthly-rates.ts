import { exactRateLimits, type ChartLimits } from '../statistics/control-charts.ts';
import { hoursWithin, type PrintedStretch } from './print-hours.ts';
import { monthOf, nextMonth, type ShopCalendar } from './shop-calendar.ts';

export interface MonthRate {
  /** "2026-11", by the shop's calendar. */
  readonly month: string;
  readonly count: number;
  readonly minutesLost: number;
  readonly printHours: number;
  /** Cases per print hour and its limits (u-chart, exact); null where nothing was printed. */
  readonly rate: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Beyond a limit: more than chance alone does. */
  readonly isOut: boolean;
}

export interface MonthlyRates {
  readonly months: readonly MonthRate[];
  /** Cases per print hour over all months that have hours; null where none has. */
  readonly centre: number | null;
}

/** Cases by month against the hours printed, every month of the period, those without cases as well. */
export function monthlyRates(
  cases: readonly { readonly openedMs: number; readonly minutesLost: number }[],
  stretches: readonly PrintedStretch[],
  calendar: ShopCalendar,
  fromMs: number,
  toMs: number,
): MonthlyRates {
  let [first, newest] = [Infinity, -Infinity];
  for (const { openedMs } of cases) {
    if (openedMs < first) first = openedMs;
    if (openedMs > newest) newest = openedMs;
  }
  for (const stretch of stretches) {
    first = Math.min(first, stretch.fromMs);
    newest = Math.max(newest, stretch.toMs);
  }
  if (first === Infinity) return { months: [], centre: null };
  const begin = Math.max(fromMs, first);
  const end = Math.min(toMs - 1, newest);
  const last = monthOf(calendar.wallTime(end).day);
  const spans: { readonly month: string; readonly fromMs: number; readonly toMs: number }[] = [];
  for (let month = monthOf(calendar.wallTime(begin).day); month <= last; month = nextMonth(month))
    spans.push({
      month,
      fromMs: calendar.startOf(`${month}-01`),
      toMs: calendar.startOf(`${nextMonth(month)}-01`),
    });
  const tallies = tallied(cases, spans);
  const months = spans.map((span, index) => ({
    month: span.month,
    count: tallies[index]?.count ?? 0,
    minutesLost: tallies[index]?.minutesLost ?? 0,
    printHours: hoursWithin(stretches, Math.max(fromMs, span.fromMs), Math.min(toMs, span.toMs)),
  }));
  const printed = months.filter(({ printHours }) => printHours > 0);
  const limits = exactRateLimits(printed.map(({ count, printHours }) => ({ count, exposure: printHours })));
  const limitsOf = new Map(printed.map((one, i) => [one.month, limits[i]]));
  return {
    centre: limits[0]?.centre ?? null,
    months: months.map((one) => {
      const own = limitsOf.get(one.month);
      if (!own) return { ...one, rate: null, low: null, high: null, isOut: false };
      const rate = one.count / one.printHours;
      return { ...one, rate, low: own.low, high: own.high, isOut: isBeyond(one.count, one.printHours, own) };
    }),
  };
}

/** Cases and minutes lost in each of some spans that follow each other. */
function tallied(
  cases: readonly { readonly openedMs: number; readonly minutesLost: number }[],
  spans: readonly { readonly fromMs: number; readonly toMs: number }[],
): readonly { readonly count: number; readonly minutesLost: number }[] {
  const tallies = spans.map(() => ({ count: 0, minutesLost: 0 }));
  let at = 0;
  for (const { openedMs, minutesLost } of cases) {
    // Cases mostly come in their order: the span is the last one's or lies near it.
    while (at > 0 && openedMs < (spans[at]?.fromMs ?? 0)) at--;
    while (at < spans.length - 1 && openedMs >= (spans[at]?.toMs ?? 0)) at++;
    const [span, tally] = [spans[at], tallies[at]];
    if (!span || !tally || openedMs < span.fromMs || openedMs >= span.toMs) continue;
    tally.count++;
    tally.minutesLost += minutesLost;
  }
  return tallies;
}

/** By counts, which are whole: rates that lie on a limit could fall beyond it by rounding. */
function isBeyond(count: number, printHours: number, { low, high }: ChartLimits): boolean {
  return count > Math.round(high * printHours) || count < Math.round(low * printHours);
}
