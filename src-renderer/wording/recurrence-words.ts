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

/** Groupings as they are chosen, as a column names them, and with the word that leads to one of them. */
export const GROUPING_WORDS: Readonly<
  Record<
    Grouping,
    { readonly choice: string; readonly column: string; readonly many: string; readonly at: string }
  >
> = {
  printer: { choice: 'By printer', column: 'Printer', many: 'printers', at: 'on' },
  nozzle: { choice: 'By nozzle and hot end', column: 'Nozzle, hot end', many: 'nozzles', at: 'with' },
  material: { choice: 'By material', column: 'Material', many: 'materials', at: 'with' },
  spool: { choice: 'By spool', column: 'Spool', many: 'spools', at: 'with' },
  batch: { choice: 'By supplier’s lot', column: 'Lot', many: 'lots', at: 'with' },
  profile: { choice: 'By print profile', column: 'Profile', many: 'profiles', at: 'with' },
  change: { choice: 'By last change', column: 'Last change', many: 'changes', at: 'after' },
  practice: { choice: 'By habit', column: 'Printer', many: 'printers', at: 'on' },
  shift: { choice: 'By shift', column: 'Shift', many: 'shifts', at: 'in' },
  month: { choice: 'By month of the year', column: 'Month', many: 'months', at: 'in' },
};

export const STANDING_WORDS: Readonly<Record<RecurrenceRow['standing'], string>> = {
  'stands-out': 'stands out',
  'worth-watching': 'worth watching',
  'could-be-chance': 'could be chance',
};

export function casesWords(count: number): string {
  return count === 1 ? '1 case' : `${count} cases`;
}

/** "Wet filament on Heron". */
export function findingWords(row: Pick<RecurrenceRow, 'whatLabel' | 'whereLabel'>, by: Grouping): string {
  return `${row.whatLabel} ${GROUPING_WORDS[by].at} ${row.whereLabel}`;
}

/** "23 cases, about 4.2 expected", or "less than one expected", "none expected". */
export function countWords(row: Pick<RecurrenceRow, 'count' | 'expectedCount'>): string {
  const { count, expectedCount } = row;
  const expected =
    expectedCount === 0
      ? 'none'
      : expectedCount < 1
        ? 'less than one'
        : `about ${expectedWords(expectedCount)}`;
  return `${casesWords(count)}, ${expected} expected`;
}

export function rowsStandingOut({ rows }: Recurrence): readonly RecurrenceRow[] {
  return rows.filter(({ standing }) => standing === 'stands-out');
}

/** How many of those that stand out may be chance all the same, in plain words. */
export function byChanceWords(recurrence: Recurrence): string {
  const count = rowsStandingOut(recurrence).length;
  if (count === 0) return '';
  const most = Math.ceil(recurrence.expectedByChance - 1e-9);
  const number = most === 1 ? 'one' : String(most);
  if (count === 1) return 'It is chance all the same about once in ten such findings.';
  return `Of these ${count}, expect at most ${number} to be chance.`;
}

/** What was looked at, so that nobody is surprised by small chances among so many. */
export function looksWords(recurrence: Recurrence): string {
  const { looks } = recurrence;
  if (looks < 2) return '';
  return (
    `${looks} pairs were looked at, so some small chances are to be expected. ` +
    `${byChanceWords(recurrence) || 'None of them is small enough to stand out among so many.'}`
  );
}

/** "Since about 3 Mar 2026 (between 10 Feb 2026 and 20 Apr 2026): 5 times as often as before". */
export function sinceWords(change: DatedChangeView): string {
  return (
    `Since about ${calendarDay(change.day)} (between ${calendarDay(change.firstDay)} and ${calendarDay(change.lastDay)}): ` +
    timesWords(change.ratio)
  );
}

/** A rate against the one before: "5 times as often as before", "a third as often as before". */
export function timesWords(ratio: number): string {
  if (ratio >= 0.95 && ratio <= 1.05) return 'about as often as before';
  if (ratio > 1) return `${ratio >= 9.5 ? ratio.toFixed(0) : ratio.toFixed(1)} times as often as before`;
  return `${fractionWords(ratio)} as often as before`;
}

const FRACTIONS = [
  [0.75, 'three quarters'],
  [2 / 3, 'two thirds'],
  [0.5, 'half'],
  [1 / 3, 'a third'],
  [0.25, 'a quarter'],
  [0.2, 'a fifth'],
  [0.1, 'a tenth'],
] as const;

/** The nearest fraction that people say aloud, "about" where it is not quite that. */
export function fractionWords(ratio: number): string {
  if (ratio < 0.07) return 'less than a tenth';
  const [near, words] = FRACTIONS.reduce((best, one) =>
    Math.abs(Math.log(one[0] / ratio)) < Math.abs(Math.log(best[0] / ratio)) ? one : best,
  );
  if (ratio > 0.87) return 'nearly';
  return Math.abs(near - ratio) < 0.01 ? words : `about ${words}`;
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
  const [first, ...others] = recurrence.groups.toSorted((a, b) => b.minutesLost - a.minutesLost);
  if (!first || first.minutesLost === 0) return null;
  const share = Math.round((100 * first.minutesLost) / recurrence.minutesLost);
  const cost = (one: RecurrenceShare) => `${one.label}, ${costWords(one, recurrence.currency)}`;
  const mostOf = (all: readonly RecurrenceShare[]) =>
    all.reduce<RecurrenceShare | null>(
      (most, one) => (one.minutesLost > (most?.minutesLost ?? 0) ? one : most),
      null,
    );
  const [cause, habit] = [mostOf(recurrence.causes), mostOf(recurrence.practices)];
  return {
    title: `${first.label}: ${costWords(first, recurrence.currency)}`,
    lines: [
      `${share} % of all that was lost, in ${casesWords(first.count)}.`,
      ...(others.length > 0 ? [`Then ${others.slice(0, 2).map(cost).join('; ')}.`] : []),
      ...(cause ? [`Of the causes: ${cost(cause)}.`] : []),
      ...(habit ? [`Of the habits: ${cost(habit)}.`] : []),
    ],
  };
}

/** The period's totals in one line. */
export function periodTotals(recurrence: Recurrence): string {
  const { caseCount, gramsScrapped, printHours } = recurrence;
  const hours = printHours > 0 ? ` in ${Math.round(printHours).toLocaleString('en-GB')} print hours` : '';
  return `${casesWords(caseCount)} closed${hours}, ${costWords(recurrence, recurrence.currency)} lost, ${grams(gramsScrapped)} of filament scrapped.`;
}

/** How far apart cases lie, and whether it has been quiet for unusually long. */
export function spacingWords(row: RecurrenceRow): string | null {
  const { spacing } = row;
  if (!spacing) return null;
  const hours = (value: number) => `${Math.round(value).toLocaleString('en-GB')} h`;
  return (
    `One case in ${hours(spacing.meanHours)} of printing (${hours(spacing.lowHours)} to ${hours(spacing.highHours)}); ` +
    `${hours(spacing.hoursSinceLast)} since the last${spacing.isUnusuallyQuiet ? ', longer than chance allows: it has become rarer' : ''}.`
  );
}
