import type { Action } from '../contract/action-view.ts';
import type { CaseRow } from '../contract/casebook-view.ts';
import type { Recurrence } from '../contract/recurrence-view.ts';
import { REPORT_TABLES } from '../contract/report-choices.ts';
import type { ReportDocument } from './report-document.ts';
import { casesInWords, minutesInWords, monthInWords, type ReportWords } from './report-words.ts';
import {
  actionsTable,
  casesTable,
  maintenanceTable,
  sharesTable,
  type DoneMaintenance,
} from './shared-tables.ts';

const TITLES = REPORT_TABLES.month;

/** A month of the shop. `recurrence` is of this month, `cases` those opened in it. */
export function monthReport(parts: {
  readonly month: string;
  readonly recurrence: Recurrence;
  readonly cases: readonly CaseRow[];
  readonly actions: readonly Action[];
  readonly maintenance: readonly DoneMaintenance[];
  readonly words: ReportWords;
  readonly footer: string;
}): ReportDocument {
  const { month, recurrence, cases, actions, maintenance, words, footer } = parts;
  const { currency, money } = recurrence;
  const standing = recurrence.rows.filter((row) => row.standing !== 'could-be-chance' && row.count > 1);
  const open = cases.filter(({ closedAt }) => closedAt === null).length;
  return {
    title: monthInWords(month),
    subtitle: 'What the month was like in the shop',
    facts: [
      ['Cases opened', `${cases.length}${open > 0 ? `, ${open} of them still open` : ''}`],
      [
        'Print hours',
        `${Math.round(recurrence.printHours).toLocaleString('en-GB')}${
          recurrence.estimatedHours > 0
            ? `, ${Math.round(recurrence.estimatedHours).toLocaleString('en-GB')} of them estimated`
            : ''
        }`,
      ],
      [
        'Lost in closed cases',
        `${minutesInWords(recurrence.minutesLost)}, ${Math.round(recurrence.gramsScrapped)} g of filament${
          money === null || currency === null ? '' : `, ${money.toFixed(2)} ${currency}`
        }`,
      ],
    ],
    sections: [
      {
        heading: 'What stands out',
        paragraphs:
          standing.length === 0
            ? ['Nothing comes back in this month more often than chance would bring.']
            : standing.map(
                (row) =>
                  `${row.whatLabel} on ${row.whereLabel}: ${casesInWords(row.count)}, ${row.expectedCount.toFixed(1)} expected (${
                    row.standing === 'stands-out' ? 'stands out' : 'worth watching'
                  }).`,
              ),
      },
      {
        heading: TITLES.printers,
        table: sharesTable('printers', 'Printer', recurrence.groups, currency),
        ifEmpty: 'No case was closed.',
      },
      {
        heading: TITLES.causes,
        table: sharesTable('causes', 'Cause', recurrence.causes, currency),
        ifEmpty: 'No case was closed.',
      },
      { heading: TITLES.cases, table: casesTable(cases, words), ifEmpty: 'No case was opened.' },
      {
        heading: TITLES.actions,
        table: actionsTable(actions),
        ifEmpty: 'None was open or done in this month.',
      },
      {
        heading: TITLES.maintenance,
        table: maintenanceTable(maintenance, words),
        ifEmpty: 'None was logged.',
      },
    ],
    footer,
  };
}
