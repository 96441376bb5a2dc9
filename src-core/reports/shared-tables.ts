import type { Action } from '../contract/action-view.ts';
import type { CaseRow } from '../contract/casebook-view.ts';
import type { RecurrenceShare } from '../contract/recurrence-view.ts';
import type { ReportTable } from './report-document.ts';
import { dayInWords, type ReportWords } from './report-words.ts';

/** Cases, one a row. */
export function casesTable(rows: readonly CaseRow[], words: ReportWords): ReportTable {
  // A column that is empty throughout only takes the others' room.
  const hasTags = rows.some(({ tags }) => tags.length > 0);
  const hasProfiles = rows.some(({ profile }) => profile !== null);
  return {
    name: 'cases',
    columns: [
      { key: 'number', label: 'Case', isFigure: true },
      { key: 'opened', label: 'Opened', isShort: true },
      { key: 'closed', label: 'Closed', isShort: true },
      { key: 'printer', label: 'Printer' },
      { key: 'spool', label: 'Spool' },
      ...(hasProfiles ? [{ key: 'profile', label: 'Profile' }] : []),
      ...(hasTags ? [{ key: 'tags', label: 'Tags' }] : []),
      { key: 'complaint', label: 'What was wrong' },
      { key: 'cause', label: 'Cause' },
      { key: 'isConfirmed', label: 'Confirmed' },
      { key: 'minutesLost', label: 'Lost, min', isFigure: true },
      { key: 'gramsScrapped', label: 'Scrap, g', isFigure: true },
    ],
    rows: rows.map((row) => [
      row.number,
      words.day(row.openedAt),
      row.closedAt === null ? 'open' : words.day(row.closedAt),
      row.printerLabel ?? '',
      row.spoolLabel ?? '',
      ...(hasProfiles ? [row.profile ?? ''] : []),
      ...(hasTags ? [row.tags.join(', ')] : []),
      row.complaint,
      row.causeLabel,
      row.isConfirmed ? 'yes' : 'no',
      row.minutesLost,
      row.gramsScrapped,
    ]),
  };
}

/** What was lost to each of some things, most first. */
export function sharesTable(
  name: string,
  what: string,
  shares: readonly (RecurrenceShare & { readonly printHours?: number | null })[],
  currency: string | null,
): ReportTable {
  const hasHours = shares.some(({ printHours }) => printHours !== undefined);
  const hasMoney = currency !== null;
  return {
    name,
    columns: [
      { key: 'label', label: what },
      { key: 'cases', label: 'Cases', isFigure: true },
      ...(hasHours ? [{ key: 'printHours', label: 'Print hours', isFigure: true }] : []),
      { key: 'minutesLost', label: 'Lost, min', isFigure: true },
      { key: 'gramsScrapped', label: 'Scrap, g', isFigure: true },
      ...(hasMoney ? [{ key: 'money', label: currency, isFigure: true }] : []),
    ],
    rows: shares
      .toSorted((a, b) => b.minutesLost - a.minutesLost)
      .map(({ label, count, printHours, minutesLost, gramsScrapped, money }) => [
        label,
        count,
        ...(hasHours ? [printHours == null ? null : Math.round(printHours)] : []),
        Math.round(minutesLost),
        Math.round(gramsScrapped),
        ...(hasMoney ? [money === null ? null : Number(money.toFixed(2))] : []),
      ]),
  };
}

const VERDICTS = {
  helped: 'It helped',
  'made-worse': 'It got worse',
  'not-yet': 'Cannot be told yet',
} as const;
const STATES = { open: 'Open', snoozed: 'Put off', dismissed: 'Left', done: 'Done' } as const;

/** Actions, with whether they helped. */
export function actionsTable(actions: readonly Action[]): ReportTable {
  return {
    name: 'actions',
    columns: [
      { key: 'title', label: 'What' },
      { key: 'about', label: 'About' },
      { key: 'owner', label: 'Who' },
      { key: 'state', label: 'State' },
      { key: 'due', label: 'Due', isShort: true },
      { key: 'done', label: 'Done', isShort: true },
      { key: 'verdict', label: 'Did it help' },
    ],
    rows: actions.map(({ title, about, owner, state, dueOn, doneOn, effect }) => [
      title,
      about === null ? '' : `${about.whatLabel}, ${about.whereLabel}`,
      owner ?? '',
      STATES[state],
      dueOn === null ? '' : dayInWords(dueOn),
      doneOn === null ? '' : dayInWords(doneOn),
      effect === null ? '' : VERDICTS[effect.verdict],
    ]),
  };
}

export interface DoneMaintenance {
  readonly at: string;
  readonly printer: string;
  readonly label: string;
  readonly part: string;
  readonly by: string | null;
  readonly printHours: number | null;
}

export function maintenanceTable(done: readonly DoneMaintenance[], words: ReportWords): ReportTable {
  return {
    name: 'maintenance',
    columns: [
      { key: 'day', label: 'Day', isShort: true },
      { key: 'printer', label: 'Printer' },
      { key: 'task', label: 'What' },
      { key: 'part', label: 'Part fitted' },
      { key: 'by', label: 'Who' },
      { key: 'printHours', label: 'Print hours', isFigure: true },
    ],
    rows: done
      .toSorted((a, b) => a.at.localeCompare(b.at))
      .map(({ at, printer, label, part, by, printHours }) => [
        words.day(at),
        printer,
        label,
        part,
        by ?? '',
        printHours,
      ]),
  };
}
