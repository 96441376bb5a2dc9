import type { Action } from '../contract/action-view.ts';
import type { CaseRow } from '../contract/casebook-view.ts';
import type { DueTask } from '../contract/maintenance-view.ts';
import type { Recurrence } from '../contract/recurrence-view.ts';
import { REPORT_TABLES } from '../contract/report-choices.ts';
import type { Printer } from '../contract/shop-records.ts';
import type { HourReading } from '../recurrence/print-hours.ts';
import { documentTexts } from '../words/en/documents.ts';
import { fixed, type Message } from '../words/message.ts';
import type { ReportDocument } from './report-document.ts';
import { figureInWords, minutesInWords, type ReportWords } from './report-words.ts';
import {
  actionsTable,
  casesTable,
  maintenanceTable,
  sharesTable,
  type DoneMaintenance,
} from './shared-tables.ts';

const { m } = documentTexts;
const TITLES = REPORT_TABLES.printer;
const READING_KINDS = {
  read: m.read(),
  corrected: m.earlierFigureWrong(),
  reset: m.meterBeganAgain(),
} as const;

/** What was lost to each confirmed cause. */
function confirmedCauses(cases: readonly CaseRow[]): Recurrence['causes'] {
  const closed = cases.filter(({ closedAt, isConfirmed }) => closedAt !== null && isConfirmed);
  return [...Map.groupBy(closed, ({ causeLabel }) => causeLabel)].map(([label, own]) => ({
    id: label,
    label,
    count: own.length,
    minutesLost: own.reduce((sum, one) => sum + one.minutesLost, 0),
    gramsScrapped: own.reduce((sum, one) => sum + one.gramsScrapped, 0),
    money: null,
  }));
}

/** A printer's life as the casebook knows it. `recurrence` is over all time, of all printers. */
export function printerReport(parts: {
  readonly printer: Printer;
  /** "0.8 mm", "Hardened steel": what is known of it. */
  readonly known: readonly Message[];
  readonly recurrence: Recurrence;
  readonly cases: readonly CaseRow[];
  readonly actions: readonly Action[];
  readonly maintenance: readonly DoneMaintenance[];
  readonly due: readonly DueTask[];
  readonly readings: readonly HourReading[];
  readonly words: ReportWords;
  readonly footer: Message;
}): ReportDocument {
  const { printer, known, recurrence, cases, actions, maintenance, due, readings, words, footer } = parts;
  const group = recurrence.groups.find(({ id }) => id === printer.id);
  const standing = recurrence.rows.filter(
    (row) => row.printerId === printer.id && row.standing !== 'could-be-chance' && row.count > 1,
  );
  const first = readings[0]?.at;
  return {
    title: printer.label,
    subtitle: printer.note || m.lifeOfPrinter(),
    facts: [
      ...(printer.model ? ([[m.model(), printer.model]] as const) : []),
      [m.knownAboutIt(), known.length > 0 ? { series: known } : m.nothingYet()],
      [m.inCasebookSince(), first === undefined ? m.notKnown() : words.day(first)],
      [m.printHoursOnMeter(), figureInWords(Math.round(printer.printHours))],
      [
        m.lostInClosedCases(),
        group
          ? m.lostInCases({
              time: minutesInWords(group.minutesLost),
              grams: Math.round(group.gramsScrapped),
              count: group.count,
            })
          : m.nothing(),
      ],
      ...(printer.isRetired ? ([[m.state(), m.retired()]] as const) : []),
    ],
    sections: [
      {
        heading: m.whatStandsOutBesideOthers(),
        paragraphs:
          standing.length === 0
            ? [m.nothingComesBackHere()]
            : standing.map((row) =>
                (row.standing === 'stands-out' ? m.standsOutHere : m.worthWatchingHere)({
                  what: row.whatLabel,
                  count: row.count,
                  expected: fixed(row.expectedCount, 1),
                }),
              ),
      },
      {
        heading: TITLES.causes,
        table: sharesTable('causes', m.cause(), confirmedCauses(cases), null),
        ifEmpty: m.noCaseClosed(),
      },
      { heading: TITLES.cases, table: casesTable(cases, words), ifEmpty: m.none() },
      {
        heading: TITLES.maintenance,
        paragraphs: due
          .filter((task) => task.due === 'overdue' || task.due === 'this-week')
          .map((task) =>
            task.due === 'overdue'
              ? m.dueNow({ task: task.label })
              : m.dueOn({ day: { day: task.dueOn ?? '' }, task: task.label }),
          ),
        table: maintenanceTable(maintenance, words),
        ifEmpty: m.noneLogged(),
      },
      { heading: TITLES.actions, table: actionsTable(actions), ifEmpty: m.none() },
      {
        heading: TITLES.readings,
        table: {
          name: 'readings',
          columns: [
            { key: 'at', label: m.when(), isShort: true },
            { key: 'printHours', label: m.printHours(), isFigure: true },
            { key: 'kind', label: m.how() },
          ],
          rows: readings.map(({ at, totalHours, kind = 'read' }) => [
            words.time(at),
            totalHours,
            READING_KINDS[kind],
          ]),
        },
        ifEmpty: m.none(),
      },
    ],
    footer,
  };
}
