import { ANY_FAULT, type Grouping } from '../contract/recurrence-choices.ts';
import type { DatedChangeView, Recurrence, RecurrenceRow } from '../contract/recurrence-view.ts';
import { findingTexts } from '../words/en/findings.ts';
import type { Words } from '../words/message.ts';
import { rememberedQuantiles } from '../statistics/gamma-distribution.ts';
import { compareGroups, leaningRates, type GroupRow } from './compare-groups.ts';
import { monthlyRates } from './monthly-rates.ts';
import { hoursWithin, workingClock, type PrintedStretch, type WorkingClock } from './print-hours.ts';
import type { ShopCalendar } from './shop-calendar.ts';
import { talliesBy, talliesByWhat, tallyOfAll, type CountedCase, type Tally } from './tally.ts';
import {
  changesThatStand,
  CLEAR_WEIGHT,
  LEAST_WEIGHT_THAT_STANDS,
  spacingOf,
  whenChanged,
  type DatedChange,
} from './when-changed.ts';

/** A closed case as the casebook has it. */
export interface ClosedCase extends CountedCase {
  readonly printerId: string | null;
  readonly causes: readonly string[];
  readonly practice: string | null;
}

export interface ReportParts {
  readonly by: Grouping;
  readonly cases: readonly ClosedCase[];
  /** What each printer printed. */
  readonly stretches: ReadonlyMap<string, readonly PrintedStretch[]>;
  /** Printers whose stretches are an estimate, and what is said of each printer's usual week. */
  readonly estimated: ReadonlySet<string>;
  readonly usualHours: Readonly<Record<string, number>>;
  /** The printers whose hours are a group's own, where groups are made of printers; null otherwise. */
  readonly printersOf: ReadonlyMap<string, readonly string[]> | null;
  readonly calendar: ShopCalendar;
  readonly fromMs: number;
  readonly toMs: number;
  /** What a minute lost costs; null where nobody has said. */
  readonly moneyPerMinute: number | null;
  readonly currency: string | null;
  whereLabel(where: string): Words;
  /** Of a cause; of a habit where groups are held against each other by habits. */
  whatLabel(what: string): string;
  printerLabel(printerId: string): string;
  practicesOf(cause: string): RecurrenceRow['practices'];
  practice(id: string): { readonly label: string; readonly better: string } | undefined;
}

/** A cause is looked at for changes from so many cases on: fewer tell nothing. */
const FEWEST_FOR_CHANGE = 5;
const PER_HOURS = 1000;
const PER_CASES = 100;

/** What comes back in a period, from what the casebook holds of it. */
export function recurrenceReport(parts: ReportParts): Recurrence {
  const { by, cases, calendar, fromMs, toMs, moneyPerMinute } = parts;
  const all = [...parts.stretches.values()].flat();
  const shopClock = workingClock(all, fromMs, toMs);
  // Where nobody read a meter, shares of cases are all that can be held against each other.
  const hours = shopClock.totalHours > 0 ? hoursByGroup(parts, all) : null;
  // Most cases have one cause, of few: their lists are made once.
  const ofOne = new Map<string, readonly string[]>();
  const whatOf = (one: ClosedCase): readonly string[] => {
    if (by !== 'practice' && (one.causes.length !== 1 || !hours))
      return hours ? [...one.causes, ANY_FAULT] : one.causes;
    const what = by === 'practice' ? one.practice : one.causes[0];
    if (what === null || what === undefined) return [];
    const made = ofOne.get(what) ?? (by === 'practice' ? [what] : [what, ANY_FAULT]);
    ofOne.set(what, made);
    return made;
  };
  const { rows, looks, expectedByChance } = compareGroups(cases, hours, whatOf);
  const per = hours ? PER_HOURS : PER_CASES;
  const clockOf = clocks(parts, shopClock);
  const leaning = leaningByWhat(rows, hours);
  const moneyOf = (minutesLost: number) => (moneyPerMinute === null ? null : minutesLost * moneyPerMinute);
  const lost = ({ times, minutesLost, gramsScrapped }: Tally) => ({
    count: times.length,
    minutesLost,
    gramsScrapped,
    money: moneyOf(minutesLost),
  });
  const whole = lost(tallyOfAll(cases));
  const quantile = rememberedQuantiles();
  const habits = new Map<string, RecurrenceRow['practices']>();
  const habitsOf = (what: string) => {
    const known = habits.get(what) ?? parts.practicesOf(what);
    habits.set(what, known);
    return known;
  };
  const byWhere = talliesBy(cases, ({ where }) => where);
  const byCause = talliesByWhat(cases, ({ causes }) => causes);
  const months = monthlyRates(cases, all, calendar, fromMs, toMs);
  const perThousand = (rate: number | null) => (rate === null ? null : rate * PER_HOURS);
  return {
    from: new Date(fromMs).toISOString(),
    to: new Date(toMs).toISOString(),
    timeZone: calendar.timeZone,
    by,
    exposure: hours ? 'print-hours' : 'cases',
    caseCount: whole.count,
    minutesLost: whole.minutesLost,
    gramsScrapped: whole.gramsScrapped,
    money: whole.money,
    currency: parts.currency,
    printHours: shopClock.totalHours,
    estimatedHours: sum([...parts.estimated], (printer) =>
      hoursWithin(parts.stretches.get(printer) ?? [], fromMs, toMs),
    ),
    unread: unreadPrinters(parts),
    looks,
    expectedByChance,
    withoutGroup: cases.length - sum([...byWhere], ([, own]) => own.times.length),
    withoutHours: sum([...byWhere], ([where, own]) =>
      hours === null || (hours.get(where) ?? 0) > 0 ? 0 : own.times.length,
    ),
    rows: rows.map((row) => {
      const isLookedAt = row.standing !== 'could-be-chance' && by !== 'month';
      const times = isLookedAt ? row.times : [];
      const change = isLookedAt ? whenChanged(times, clockOf(row.where), CLEAR_WEIGHT) : null;
      return {
        where: row.where,
        whereLabel: parts.whereLabel(row.where),
        printerId: by === 'printer' || by === 'practice' ? row.where : null,
        what: row.what,
        whatLabel: row.what === ANY_FAULT ? findingTexts.m.anyFault() : parts.whatLabel(row.what),
        count: row.count,
        minutesLost: row.minutesLost,
        gramsScrapped: row.gramsScrapped,
        money: moneyOf(row.minutesLost),
        exposure: row.exposure,
        isEstimated: hours !== null && isEstimated(parts, row.where),
        expectedCount: row.expectedCount,
        chance: row.chance,
        adjustedChance: row.adjustedChance,
        standing: row.standing,
        rate: row.rate * per,
        rateLow: row.rateLow * per,
        rateHigh: row.rateHigh * per,
        leaningRate: scaled(leaning.get(row.what)?.get(row.where), per),
        since: change && change.weight >= CLEAR_WEIGHT ? dated(change, calendar) : null,
        spacing: isLookedAt ? spacingOf(times, clockOf(row.where), quantile) : null,
        practices: habitsOf(row.what),
      };
    }),
    groups: largestFirst(byWhere).map(([id, own]) => ({
      id,
      label: parts.whereLabel(id),
      ...lost(own),
      printHours: hours?.get(id) ?? null,
    })),
    causes: [...byCause]
      .map(([id, own]) => ({ id, label: parts.whatLabel(id), ...lost(own) }))
      .sort((a, b) => b.count - a.count),
    practices: [...talliesBy(cases, (one) => one.practice ?? '')].flatMap(([id, own]) => {
      const practice = parts.practice(id);
      return practice ? [{ id, label: practice.label, better: practice.better, ...lost(own) }] : [];
    }),
    months: months.months.map((one) => ({
      ...one,
      rate: perThousand(one.rate),
      low: perThousand(one.low),
      high: perThousand(one.high),
    })),
    centre: perThousand(months.centre),
    better: fallen(parts, byCause, shopClock),
  };
}

/** Print hours by group, where groups are printers, made of printers, or months; null where nobody logs them. */
function hoursByGroup(
  { by, printersOf, stretches, calendar, fromMs, toMs }: ReportParts,
  all: readonly PrintedStretch[],
): ReadonlyMap<string, number> | null {
  if (by === 'month') {
    const { months } = monthlyRates([], all, calendar, fromMs, toMs);
    const hours = new Map<string, number>();
    for (const { month, printHours } of months)
      hours.set(month.slice(5), (hours.get(month.slice(5)) ?? 0) + printHours);
    return hours;
  }
  if (!printersOf) return null;
  return new Map(
    [...printersOf].map(([where, printers]) => [
      where,
      sum(printers, (printer) => hoursWithin(stretches.get(printer) ?? [], fromMs, toMs)),
    ]),
  );
}

/** Printers with cases of the period of which no meter tells anything, most cases first. */
function unreadPrinters({ cases, stretches, estimated, usualHours, printerLabel }: ReportParts) {
  const counts = new Map<string, number>();
  for (const { printerId } of cases)
    if (printerId !== null && (estimated.has(printerId) || (stretches.get(printerId) ?? []).length === 0))
      counts.set(printerId, (counts.get(printerId) ?? 0) + 1);
  return [...counts]
    .map(([printerId, count]) => ({
      printerId,
      label: printerLabel(printerId),
      cases: count,
      hoursPerWeek: usualHours[printerId] ?? null,
    }))
    .filter(({ label }) => label !== '')
    .sort((a, b) => b.cases - a.cases);
}

/** Whether an estimate is among the hours of a group; where groups are not made of printers, among those of the shop. */
function isEstimated({ printersOf, estimated }: ReportParts, where: string): boolean {
  const printers = printersOf?.get(where);
  return printers ? printers.some((one) => estimated.has(one)) : estimated.size > 0;
}

/** The hours by which a group's cases are dated: its own, or those of the whole shop. */
function clocks({ printersOf, stretches, fromMs, toMs }: ReportParts, shopClock: WorkingClock) {
  const kept = new Map<string, WorkingClock>();
  return (where: string): WorkingClock => {
    const printers = printersOf?.get(where);
    if (!printers) return shopClock;
    const own =
      kept.get(where) ??
      workingClock(
        printers.flatMap((printer) => stretches.get(printer) ?? []),
        fromMs,
        toMs,
      );
    kept.set(where, own);
    return own;
  };
}

function scaled(rate: number | undefined, per: number): number | null {
  return rate === undefined ? null : rate * per;
}

/** Fewer cases of a cause in all say nothing of how its rates differ. */
const FEWEST_FOR_LEANING = 3;

function leaningByWhat(rows: readonly GroupRow[], hours: ReadonlyMap<string, number> | null) {
  const exposures = hours ?? new Map(rows.map((row) => [row.where, row.exposure]));
  return new Map(
    [...Map.groupBy(rows, (row) => row.what)]
      .filter(([, own]) => sum(own, (row) => row.count) >= FEWEST_FOR_LEANING)
      .map(([what, own]) => [
        what,
        leaningRates(new Map(own.map((row) => [row.where, row.count])), exposures),
      ]),
  );
}

/** Printers and causes whose rate fell, of all that were looked at. */
function fallen(
  parts: ReportParts,
  byCause: ReadonlyMap<string, Tally>,
  shopClock: WorkingClock,
): Recurrence['better'] {
  const { cases, stretches, calendar, fromMs, toMs } = parts;
  const candidates = [
    ...[...talliesBy(cases, (one) => one.printerId)].map(([printerId, { times }]) => ({
      label: parts.printerLabel(printerId),
      kind: 'printer' as const,
      times,
      clock: workingClock(stretches.get(printerId) ?? [], fromMs, toMs),
    })),
    ...[...byCause].map(([cause, { times }]) => ({
      label: parts.whatLabel(cause),
      kind: 'cause' as const,
      times,
      clock: shopClock,
    })),
  ].flatMap(({ label, kind, times, clock }) => {
    if (times.length < FEWEST_FOR_CHANGE || !(clock.totalHours > 0)) return [];
    return [{ label, kind, change: whenChanged(times, clock, LEAST_WEIGHT_THAT_STANDS) }];
  });
  return changesThatStand(candidates)
    .filter(({ change }) => change.ratioHigh < 1)
    .sort((a, b) => b.change.weight - a.change.weight)
    .map(({ label, kind, change }) => ({ label, kind, change: dated(change, calendar) }));
}

function dated(change: DatedChange, calendar: ShopCalendar): DatedChangeView {
  const day = (ms: number) => calendar.wallTime(ms).day;
  const { ratio, ratioLow, ratioHigh, weight } = change;
  return {
    day: day(change.atMs),
    firstDay: day(change.fromMs),
    lastDay: day(change.toMs),
    ratio,
    ratioLow,
    ratioHigh,
    weight,
  };
}

function largestFirst(groups: ReadonlyMap<string, Tally>): [string, Tally][] {
  return [...groups].sort(([, a], [, b]) => b.times.length - a.times.length);
}

function sum<T>(entries: readonly T[], of: (entry: T) => number): number {
  return entries.reduce((total, entry) => total + of(entry), 0);
}
