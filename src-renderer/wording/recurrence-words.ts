import { fixed } from '../messages/figures.ts';
import { told } from '../display/told.ts';
import { locale } from '../messages/language.ts';
import type { Grouping } from '../../src-core/contract/recurrence-choices.ts';
import type {
  DatedChangeView,
  Recurrence,
  RecurrenceRow,
  RecurrenceShare,
} from '../../src-core/contract/recurrence-view.ts';
import { expectedWords } from './chance-words.ts';
import { calendarDay, grams, moneyWords } from './format.ts';
import { timeLost } from './time-lost.ts';
import { m } from '../messages/en/recurrence-words.ts';

/** Groupings as they are chosen, as a column names them, and with the word that leads to one of them. */
export const GROUPING_WORDS: Readonly<
  Record<
    Grouping,
    {
      readonly choice: string;
      readonly column: string;
      readonly many: string;
      /** What comes back, with its group: "Wet filament on Heron". */
      readonly found: typeof m.foundOn;
    }
  >
> = {
  printer: { choice: m.byPrinter(), column: m.printer(), many: m.printers(), found: m.foundOn },
  nozzle: { choice: m.byNozzleAndHotEnd(), column: m.nozzleHotEnd(), many: m.nozzles(), found: m.foundWith },
  material: { choice: m.byMaterial(), column: m.material(), many: m.materials(), found: m.foundWith },
  spool: { choice: m.bySpool(), column: m.spool(), many: m.spools(), found: m.foundWith },
  batch: { choice: m.bySuppliersLot(), column: m.lot(), many: m.lots(), found: m.foundWith },
  profile: { choice: m.byPrintProfile(), column: m.profile(), many: m.profiles(), found: m.foundWith },
  change: { choice: m.byLastChange(), column: m.lastChange(), many: m.changes(), found: m.foundAfter },
  practice: { choice: m.byHabit(), column: m.printer(), many: m.printers(), found: m.foundOn },
  shift: { choice: m.byShift(), column: m.shift(), many: m.shifts(), found: m.foundInShift },
  month: { choice: m.byMonthOfTheYear(), column: m.month(), many: m.months(), found: m.foundIn },
};

export const STANDING_WORDS: Readonly<Record<RecurrenceRow['standing'], string>> = {
  'stands-out': m.standsOut(),
  'worth-watching': m.worthWatching(),
  'could-be-chance': m.couldBeChance(),
};

export function casesWords(count: number): string {
  return m.cases({ count });
}

/** "Wet filament on Heron". */
export function findingWords(row: Pick<RecurrenceRow, 'whatLabel' | 'whereLabel'>, by: Grouping): string {
  return GROUPING_WORDS[by].found({ what: told(row.whatLabel), where: told(row.whereLabel) });
}

/** "Wet filament on Heron: 23 cases, about 4.2 expected". */
export function countedFindingWords(row: RecurrenceRow, by: Grouping): string {
  return m.findingCounted({ finding: findingWords(row, by), count: countWords(row) });
}

/** Words that stand by themselves as a sentence. */
export function sentence(words: string): string {
  return m.sentence({ words });
}

/** "23 cases, about 4.2 expected", or "less than one expected", "none expected". */
export function countWords(row: Pick<RecurrenceRow, 'count' | 'expectedCount'>): string {
  const { count, expectedCount } = row;
  const expected =
    expectedCount === 0
      ? m.none()
      : expectedCount < 1
        ? m.lessThanOne()
        : m.about({ expected: expectedWords(expectedCount) });
  return m.expected({ cases: casesWords(count), expected });
}

export function rowsStandingOut({ rows }: Recurrence): readonly RecurrenceRow[] {
  return rows.filter(({ standing }) => standing === 'stands-out');
}

/** How many of those that stand out may be chance all the same, in plain words. */
export function byChanceWords(recurrence: Recurrence): string {
  const count = rowsStandingOut(recurrence).length;
  if (count === 0) return '';
  const most = Math.ceil(recurrence.expectedByChance - 1e-9);
  if (count === 1) return m.itIsChanceAllTheSame();
  return m.ofTheseExpectAtMostTo({ count, most });
}

/** What was looked at, so that nobody is surprised by small chances among so many. */
export function looksWords(recurrence: Recurrence): string {
  const { looks } = recurrence;
  if (looks < 2) return '';
  return m.pairsWereLookedAtSoSome({
    looks,
    byChance: byChanceWords(recurrence) || m.noneOfThemIsSmallEnough(),
  });
}

/** "Since about 3 Mar 2026 (between 10 Feb 2026 and 20 Apr 2026): 5 times as often as before". */
export function sinceWords(change: DatedChangeView): string {
  return m.sinceAboutBetweenAnd({
    day: calendarDay(change.day),
    day2: calendarDay(change.firstDay),
    day3: calendarDay(change.lastDay),
    times: timesWords(change.ratio),
  });
}

/** A rate against the one before: "5 times as often as before", "a third as often as before". */
export function timesWords(ratio: number): string {
  if (ratio >= 0.95 && ratio <= 1.05) return m.aboutAsOftenAsBefore();
  if (ratio > 1) return m.timesAsOftenAsBefore({ ratio: ratio >= 9.5 ? fixed(ratio, 0) : fixed(ratio, 1) });
  return m.asOftenAsBefore({ fraction: fractionWords(ratio) });
}

const FRACTIONS = [
  [0.75, m.threeQuarters()],
  [2 / 3, m.twoThirds()],
  [0.5, 'half'],
  [1 / 3, m.aThird()],
  [0.25, m.aQuarter()],
  [0.2, m.aFifth()],
  [0.1, m.aTenth()],
] as const;

/** The nearest fraction that people say aloud, "about" where it is not quite that. */
export function fractionWords(ratio: number): string {
  if (ratio < 0.07) return m.lessThanATenth();
  const [near, words] = FRACTIONS.reduce((best, one) =>
    Math.abs(Math.log(one[0] / ratio)) < Math.abs(Math.log(best[0] / ratio)) ? one : best,
  );
  if (ratio > 0.87) return 'nearly';
  return Math.abs(near - ratio) < 0.01 ? words : m.aboutWithWords({ words });
}

/** Time lost, and what it costs where the shop has said what an hour costs. */
export function costWords(
  lost: Pick<RecurrenceShare, 'minutesLost' | 'money'>,
  currency: string | null,
): string {
  const time = timeLost(lost.minutesLost);
  return lost.money === null || currency === null ? time : `${moneyWords(lost.money, currency)} (${time})`;
}

/** The group that costs most, as a card says it; null where nothing was lost. */
export function costliestWords(
  recurrence: Recurrence,
): { readonly title: string; readonly lines: readonly string[] } | null {
  const [first, second, third] = recurrence.groups.toSorted((a, b) => b.minutesLost - a.minutesLost);
  if (!first || first.minutesLost === 0) return null;
  const share = Math.round((100 * first.minutesLost) / recurrence.minutesLost);
  const cost = (one: RecurrenceShare) =>
    m.costOf({ label: told(one.label), cost: costWords(one, recurrence.currency) });
  const mostOf = (all: readonly RecurrenceShare[]) =>
    all.reduce<RecurrenceShare | null>(
      (most, one) => (one.minutesLost > (most?.minutesLost ?? 0) ? one : most),
      null,
    );
  const [cause, habit] = [mostOf(recurrence.causes), mostOf(recurrence.practices)];
  return {
    title: m.costOfFirst({ label: told(first.label), cost: costWords(first, recurrence.currency) }),
    lines: [
      m.ofAllThatWasLostIn({ share, cases: casesWords(first.count) }),
      ...(second
        ? [third ? m.thenTwo({ first: cost(second), second: cost(third) }) : m.then({ others: cost(second) })]
        : []),
      ...(cause ? [m.ofTheCauses({ cost: cost(cause) })] : []),
      ...(habit ? [m.ofTheHabits({ cost: cost(habit) })] : []),
    ],
  };
}

/** The period's totals in one line. */
export function periodTotals(recurrence: Recurrence): string {
  const { caseCount, gramsScrapped, printHours, estimatedHours } = recurrence;
  const whole = (value: number) => Math.round(value).toLocaleString(locale());
  const lost = {
    cases: casesWords(caseCount),
    cost: costWords(recurrence, recurrence.currency),
    grams: grams(gramsScrapped),
  };
  if (printHours === 0) return m.closedAndLost(lost);
  return estimatedHours > 0
    ? m.closedInHoursSomeEstimated({
        ...lost,
        printHours: whole(printHours),
        estimated: whole(estimatedHours),
      })
    : m.closedInHours({ ...lost, printHours: whole(printHours) });
}

/** How far apart cases lie, and whether it has been quiet for unusually long. */
export function spacingWords(row: RecurrenceRow): string | null {
  const { spacing } = row;
  if (!spacing) return null;
  const hours = (value: number) => m.h({ value: Math.round(value).toLocaleString(locale()) });
  return spacing.isUnusuallyQuiet
    ? m.oneCaseInOfPrintingTo({
        hours: hours(spacing.meanHours),
        hours2: hours(spacing.lowHours),
        hours3: hours(spacing.highHours),
        hours4: hours(spacing.hoursSinceLast),
      })
    : m.oneCaseInOfPrintingToSince({
        hours: hours(spacing.meanHours),
        hours2: hours(spacing.lowHours),
        hours3: hours(spacing.highHours),
        hours4: hours(spacing.hoursSinceLast),
      });
}
