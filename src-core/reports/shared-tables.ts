import type { Action } from '../contract/action-view.ts';
import type { CaseRow } from '../contract/casebook-view.ts';
import type { RecurrenceShare } from '../contract/recurrence-view.ts';
import { documentTexts } from '../words/en/documents.ts';
import type { Message } from '../words/message.ts';
import type { ReportTable } from './report-document.ts';
import type { ReportWords } from './report-words.ts';

const { m } = documentTexts;

/** Cases, one a row. */
export function casesTable(rows: readonly CaseRow[], words: ReportWords): ReportTable {
  // A column that is empty throughout only takes the others' room.
  const hasTags = rows.some(({ tags }) => tags.length > 0);
  const hasProfiles = rows.some(({ profile }) => profile !== null);
  return {
    name: 'cases',
    columns: [
      { key: 'number', label: m.case(), isFigure: true },
      { key: 'opened', label: m.opened(), isShort: true },
      { key: 'closed', label: m.closed(), isShort: true },
      { key: 'printer', label: m.printer() },
      { key: 'spool', label: m.spool() },
      ...(hasProfiles ? [{ key: 'profile', label: m.profile() }] : []),
      ...(hasTags ? [{ key: 'tags', label: m.tags() }] : []),
      { key: 'complaint', label: m.whatWasWrong() },
      { key: 'cause', label: m.cause() },
      { key: 'isConfirmed', label: m.confirmed() },
      { key: 'minutesLost', label: m.lostMinutes(), isFigure: true },
      { key: 'gramsScrapped', label: m.scrapGrams(), isFigure: true },
    ],
    rows: rows.map((row) => [
      row.number,
      words.day(row.openedAt),
      row.closedAt === null ? m.openCase() : words.day(row.closedAt),
      row.printerLabel ?? '',
      row.spoolLabel ?? '',
      ...(hasProfiles ? [row.profile ?? ''] : []),
      ...(hasTags ? [row.tags] : []),
      row.complaint,
      row.causeLabel,
      row.isConfirmed ? m.yes() : m.no(),
      row.minutesLost,
      row.gramsScrapped,
    ]),
  };
}

/** What was lost to each of some things, most first. */
export function sharesTable(
  name: string,
  what: Message,
  shares: readonly (RecurrenceShare & { readonly printHours?: number | null })[],
  currency: string | null,
): ReportTable {
  const hasHours = shares.some(({ printHours }) => printHours !== undefined);
  const hasMoney = currency !== null;
  return {
    name,
    columns: [
      { key: 'label', label: what },
      { key: 'cases', label: m.cases(), isFigure: true },
      ...(hasHours ? [{ key: 'printHours', label: m.printHours(), isFigure: true }] : []),
      { key: 'minutesLost', label: m.lostMinutes(), isFigure: true },
      { key: 'gramsScrapped', label: m.scrapGrams(), isFigure: true },
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
  helped: m.itHelped(),
  'made-worse': m.itGotWorse(),
  'not-yet': m.cannotBeToldYet(),
} as const;
const STATES = { open: m.open(), snoozed: m.putOff(), dismissed: m.left(), done: m.done() } as const;

/** Actions, with whether they helped. */
export function actionsTable(actions: readonly Action[]): ReportTable {
  return {
    name: 'actions',
    columns: [
      { key: 'title', label: m.what() },
      { key: 'about', label: m.about() },
      { key: 'owner', label: m.who() },
      { key: 'state', label: m.state() },
      { key: 'due', label: m.due(), isShort: true },
      { key: 'done', label: m.done(), isShort: true },
      { key: 'verdict', label: m.didItHelp() },
    ],
    rows: actions.map(({ title, about, owner, state, dueOn, doneOn, effect }) => [
      title,
      about === null ? '' : m.aboutThere({ what: about.whatLabel, where: about.whereLabel }),
      owner ?? '',
      STATES[state],
      dueOn === null ? '' : { day: dueOn },
      doneOn === null ? '' : { day: doneOn },
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
      { key: 'day', label: m.day(), isShort: true },
      { key: 'printer', label: m.printer() },
      { key: 'task', label: m.what() },
      { key: 'part', label: m.partFitted() },
      { key: 'by', label: m.who() },
      { key: 'printHours', label: m.printHours(), isFigure: true },
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
