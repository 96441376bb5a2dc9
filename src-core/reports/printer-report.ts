import type { Action } from '../contract/action-view.ts';
import type { CaseRow } from '../contract/casebook-view.ts';
import type { DueTask } from '../contract/maintenance-view.ts';
import type { Recurrence } from '../contract/recurrence-view.ts';
import { REPORT_TABLES } from '../contract/report-choices.ts';
import type { Printer } from '../contract/shop-records.ts';
import type { HourReading } from '../recurrence/print-hours.ts';
import type { ReportDocument } from './report-document.ts';
import { casesInWords, dayInWords, minutesInWords, type ReportWords } from './report-words.ts';
import {
  actionsTable,
  casesTable,
  maintenanceTable,
  sharesTable,
  type DoneMaintenance,
} from './shared-tables.ts';

const TITLES = REPORT_TABLES.printer;
const READING_KINDS = {
  read: 'Read',
  corrected: 'Earlier figure was wrong',
  reset: 'Meter began again',
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
  readonly known: readonly string[];
  readonly recurrence: Recurrence;
  readonly cases: readonly CaseRow[];
  readonly actions: readonly Action[];
  readonly maintenance: readonly DoneMaintenance[];
  readonly due: readonly DueTask[];
  readonly readings: readonly HourReading[];
  readonly words: ReportWords;
  readonly footer: string;
}): ReportDocument {
  const { printer, known, recurrence, cases, actions, maintenance, due, readings, words, footer } = parts;
  const group = recurrence.groups.find(({ id }) => id === printer.id);
  const standing = recurrence.rows.filter(
    (row) => row.printerId === printer.id && row.standing !== 'could-be-chance' && row.count > 1,
  );
  const first = readings[0]?.at;
  return {
    title: printer.label,
    subtitle: printer.note || 'A printer’s life, as the casebook knows it',
    facts: [
      ...(printer.model ? ([['Model', printer.model]] as const) : []),
      ['Known about it', known.join(', ') || 'Nothing yet'],
      ['In the casebook since', first === undefined ? 'Not known' : words.day(first)],
      ['Print hours on the meter', Math.round(printer.printHours).toLocaleString('en-GB')],
      [
        'Lost in closed cases',
        group
          ? `${minutesInWords(group.minutesLost)} and ${Math.round(group.gramsScrapped)} g of filament in ${casesInWords(group.count)}`
          : 'Nothing',
      ],
      ...(printer.isRetired ? ([['State', 'Retired']] as const) : []),
    ],
    sections: [
      {
        heading: 'What stands out beside the other printers',
        paragraphs:
          standing.length === 0
            ? ['Nothing comes back here more often than chance would bring.']
            : standing.map(
                (row) =>
                  `${row.whatLabel}: ${casesInWords(row.count)}, ${row.expectedCount.toFixed(1)} expected (${
                    row.standing === 'stands-out' ? 'stands out' : 'worth watching'
                  }).`,
              ),
      },
      {
        heading: TITLES.causes,
        table: sharesTable('causes', 'Cause', confirmedCauses(cases), null),
        ifEmpty: 'No case was closed.',
      },
      { heading: TITLES.cases, table: casesTable(cases, words), ifEmpty: 'None.' },
      {
        heading: TITLES.maintenance,
        paragraphs: due
          .filter((task) => task.due === 'overdue' || task.due === 'this-week')
          .map((task) =>
            task.due === 'overdue'
              ? `Due now: ${task.label}.`
              : `Due ${dayInWords(task.dueOn ?? '')}: ${task.label}.`,
          ),
        table: maintenanceTable(maintenance, words),
        ifEmpty: 'None was logged.',
      },
      { heading: TITLES.actions, table: actionsTable(actions), ifEmpty: 'None.' },
      {
        heading: TITLES.readings,
        table: {
          name: 'readings',
          columns: [
            { key: 'at', label: 'When', isShort: true },
            { key: 'printHours', label: 'Print hours', isFigure: true },
            { key: 'kind', label: 'How' },
          ],
          rows: readings.map(({ at, totalHours, kind = 'read' }) => [
            words.time(at),
            totalHours,
            READING_KINDS[kind],
          ]),
        },
        ifEmpty: 'None.',
      },
    ],
    footer,
  };
}
