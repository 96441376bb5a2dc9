import type { Action } from '../contract/action-view.ts';
import type { CaseRow } from '../contract/casebook-view.ts';
import type { Recurrence } from '../contract/recurrence-view.ts';
import { REPORT_TABLES } from '../contract/report-choices.ts';
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
const TITLES = REPORT_TABLES.month;

/** A month of the shop. `recurrence` is of this month, `cases` those opened in it. */
export function monthReport(parts: {
  readonly month: string;
  readonly recurrence: Recurrence;
  readonly cases: readonly CaseRow[];
  readonly actions: readonly Action[];
  readonly maintenance: readonly DoneMaintenance[];
  readonly words: ReportWords;
  readonly footer: Message;
}): ReportDocument {
  const { month, recurrence, cases, actions, maintenance, words, footer } = parts;
  const { currency, money } = recurrence;
  const standing = recurrence.rows.filter((row) => row.standing !== 'could-be-chance' && row.count > 1);
  const [time, grams] = [minutesInWords(recurrence.minutesLost), Math.round(recurrence.gramsScrapped)];
  const hours = figureInWords(Math.round(recurrence.printHours));
  const open = cases.filter(({ closedAt }) => closedAt === null).length;
  return {
    title: { month },
    subtitle: m.whatMonthWasLike(),
    facts: [
      [m.casesOpened(), open > 0 ? m.casesSomeOpen({ cases: cases.length, open }) : cases.length],
      [
        m.printHours(),
        recurrence.estimatedHours > 0
          ? m.hoursSomeEstimated({
              hours,
              estimated: figureInWords(Math.round(recurrence.estimatedHours)),
            })
          : hours,
      ],
      [
        m.lostInClosedCases(),
        money === null || currency === null
          ? m.lostTimeAndFilament({ time, grams })
          : m.lostTimeFilamentMoney({ time, grams, money: fixed(money, 2), currency }),
      ],
    ],
    sections: [
      {
        heading: m.whatStandsOut(),
        paragraphs:
          standing.length === 0
            ? [m.nothingComesBackInMonth()]
            : standing.map((row) =>
                (row.standing === 'stands-out' ? m.standsOutOn : m.worthWatchingOn)({
                  what: row.whatLabel,
                  where: row.whereLabel,
                  count: row.count,
                  expected: fixed(row.expectedCount, 1),
                }),
              ),
      },
      {
        heading: TITLES.printers,
        table: sharesTable('printers', m.printer(), recurrence.groups, currency),
        ifEmpty: m.noCaseClosed(),
      },
      {
        heading: TITLES.causes,
        table: sharesTable('causes', m.cause(), recurrence.causes, currency),
        ifEmpty: m.noCaseClosed(),
      },
      { heading: TITLES.cases, table: casesTable(cases, words), ifEmpty: m.noCaseOpened() },
      {
        heading: TITLES.actions,
        table: actionsTable(actions),
        ifEmpty: m.noneOpenOrDone(),
      },
      {
        heading: TITLES.maintenance,
        table: maintenanceTable(maintenance, words),
        ifEmpty: m.noneLogged(),
      },
    ],
    footer,
  };
}
