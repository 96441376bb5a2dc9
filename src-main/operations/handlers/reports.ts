import type { CaseRow } from '../../../src-core/contract/casebook-view.ts';
import { caseFilterSchema, type CaseFilterInput } from '../../../src-core/contract/casebook-view.ts';
import type { Reader, ReportSubject } from '../../../src-core/contract/report-view.ts';
import { entriesOf } from '../../../src-core/maintenance/maintenance-log.ts';
import { dayAfter, nextMonth } from '../../../src-core/recurrence/shop-calendar.ts';
import { caseReport } from '../../../src-core/reports/case-report.ts';
import { documentHtml } from '../../../src-core/reports/document-html.ts';
import { guideUseReport } from '../../../src-core/reports/guide-use-report.ts';
import { monthReport } from '../../../src-core/reports/month-report.ts';
import { printerReport } from '../../../src-core/reports/printer-report.ts';
import {
  tableNamed,
  type ReportDocument,
  type ReportPicture,
} from '../../../src-core/reports/report-document.ts';
import { reportWords, type ReportWords } from '../../../src-core/reports/report-words.ts';
import type { DoneMaintenance } from '../../../src-core/reports/shared-tables.ts';
import { tableCsv, tableJsonLines } from '../../../src-core/reports/table-text.ts';
import { conditionValueLabel } from '../../../src-core/session/wording.ts';
import { documentTexts } from '../../../src-core/words/en/documents.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { valueTexts } from '../../../src-core/words/en/values.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { readMaintenanceLogs } from '../../casebook/maintenance.repository.ts';
import { listHourReadings, listPrinters } from '../../casebook/printer.repository.ts';
import type { ApplicationContext } from '../application-context.ts';
import type { Visitor } from '../access/visitor.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';
import { sayerFor } from '../reader-tongue.ts';
import { listCases } from '../../casebook/case-list.repository.ts';
import { viewCase } from '../case-reader.ts';
import { actionList } from './actions.ts';
import { caseTimeline } from './casebook.ts';
import { leadGuideUse } from './guide-use.ts';
import { maintenanceList } from './maintenance.ts';
import { leadRecurrence, readCalendar } from './recurrence.ts';

const { m } = documentTexts;
/** As many rows as a list answers with at once. */
const PAGE = 200;

export const reportMake: Handler<'report:make'> = async (program, { about, form, reader }, by) => {
  const { document, name } = await makeDocument(program, about, by);
  if (form.kind === 'document')
    return { fileName: `${name}.html`, type: 'text/html', text: await htmlFor(program, document, reader) };
  const table = tableNamed(document, form.table);
  if (!table) throw new DomainError('bad-request', refusals.noSuchTable({ name: form.table }));
  return form.kind === 'csv'
    ? { fileName: `${name}-${table.name}.csv`, type: 'text/csv', text: tableCsv(table) }
    : { fileName: `${name}-${table.name}.jsonl`, type: 'application/x-ndjson', text: tableJsonLines(table) };
};

/** A report as an HTML document of one file in its reader's language, with the name that its file bears. */
export async function makeReport(
  program: ApplicationContext,
  about: ReportSubject,
  reader: Reader,
  by: Visitor,
): Promise<{ readonly html: string; readonly name: string }> {
  const { document, name } = await makeDocument(program, about, by);
  return { html: await htmlFor(program, document, reader), name };
}

async function htmlFor(
  program: ApplicationContext,
  document: ReportDocument,
  reader: Reader,
): Promise<string> {
  const { sayer, language } = await sayerFor(program, reader);
  return documentHtml(document, sayer, language);
}

async function makeDocument(
  program: ApplicationContext,
  about: ReportSubject,
  by: Visitor,
): Promise<{ readonly document: ReportDocument; readonly name: string }> {
  const calendar = await readCalendar(program);
  const words = reportWords(calendar);
  const now = program.now();
  const made = { at: words.time(now.toISOString()), timeZone: calendar.timeZone };
  const footer = m.madeAt(made);
  switch (about.kind) {
    case 'case':
      return ofCase(program, about.caseId, words, made, by);
    case 'month':
      return ofMonth(program, about.month, words, footer, by);
    case 'printer':
      return ofPrinter(program, about.printerId, words, footer, by);
    case 'guide-use':
      return {
        document: guideUseReport(await leadGuideUse(program, {}, by), program.knowledge.version, footer),
        name: 'beadwright-guide-in-use',
      };
  }
}

async function ofCase(
  program: ApplicationContext,
  caseId: string,
  words: ReportWords,
  made: Parameters<typeof m.madeAt>[0],
  by: Visitor,
) {
  const view = await viewCase(program, caseId);
  const timeline = await caseTimeline(program, { caseId }, by);
  const pictures: ReportPicture[] = [];
  for (const { photo, text, isUndone } of timeline.steps) {
    const bytes = photo === null || isUndone ? null : await program.casebook.photos.read(photo);
    if (bytes) pictures.push({ base64: bytes.toString('base64'), caption: text });
  }
  return {
    document: caseReport(
      view,
      timeline,
      pictures,
      words,
      m.madeAtByGuide({ ...made, version: view.knowledgeVersion }),
    ),
    name: `beadwright-case-${view.number}`,
  };
}

async function ofMonth(
  program: ApplicationContext,
  month: string,
  words: ReportWords,
  footer: Message,
  by: Visitor,
) {
  const calendar = await readCalendar(program);
  const fromDay = `${month}-01`;
  const toDay = dayAfter(`${nextMonth(month)}-01`, -1);
  const [fromMs, toMs] = [calendar.startOf(fromDay), calendar.startOf(`${nextMonth(month)}-01`)];
  const recurrence = await leadRecurrence(program, { fromDay, toDay, by: 'printer' }, by);
  const cases = await allCases(program, {
    openedFrom: new Date(fromMs).toISOString(),
    openedTo: new Date(toMs).toISOString(),
    order: 'oldest',
  });
  const { actions } = await actionList(program, {}, by);
  const isOfMonth = ({ openedAt, doneOn, state }: (typeof actions)[number]) =>
    state === 'done'
      ? doneOn !== null && doneOn >= fromDay && doneOn <= toDay
      : state !== 'dismissed' && Date.parse(openedAt) < toMs;
  const maintenance = (await doneMaintenance(program, by)).filter(
    ({ at }) => Date.parse(at) >= fromMs && Date.parse(at) < toMs,
  );
  return {
    document: monthReport({
      month,
      recurrence,
      cases,
      actions: actions.filter(isOfMonth),
      maintenance,
      words,
      footer,
    }),
    name: `beadwright-month-${month}`,
  };
}

async function ofPrinter(
  program: ApplicationContext,
  printerId: string,
  words: ReportWords,
  footer: Message,
  by: Visitor,
) {
  const { db } = program.casebook;
  const { knowledge } = program;
  const printer = (await listPrinters(db)).find(({ id }) => id === printerId);
  if (!printer) throw new DomainError('not-found', refusals.printerGone());
  const recurrence = await leadRecurrence(program, { fromDay: null, toDay: null, by: 'printer' }, by);
  const { actions } = await actionList(program, {}, by);
  const due = (await maintenanceList(program, {}, by)).printers.find((one) => one.printerId === printerId);
  return {
    document: printerReport({
      printer,
      known: Object.entries(printer.conditions).flatMap(([id, value]) =>
        knowledge.conditions.has(id)
          ? [valueTexts.m.only({ value: conditionValueLabel(knowledge, id, value) })]
          : [],
      ),
      recurrence,
      cases: await allCases(program, { printerId, order: 'oldest' }),
      actions: actions.filter(({ about }) => about?.by === 'printer' && about.where === printerId),
      maintenance: (await doneMaintenance(program, by)).filter((one) => one.printerId === printerId),
      due: due && !due.isInDanger ? due.tasks : [],
      readings: (await listHourReadings(db)).filter((one) => one.printerId === printerId),
      words,
      footer,
    }),
    name: `beadwright-printer-${fileNamePart(printer.label)}`,
  };
}

async function allCases(program: ApplicationContext, filter: CaseFilterInput): Promise<readonly CaseRow[]> {
  const rows: CaseRow[] = [];
  for (let offset = 0; ; offset += PAGE) {
    const page = caseFilterSchema.parse({ ...filter, offset, limit: PAGE });
    const lot = await listCases(program.casebook.db, page, []);
    // One that was merged is the same trouble as another, and counts there.
    rows.push(...lot.rows.filter(({ state }) => state !== 'merged'));
    if (lot.rows.length < PAGE) return rows;
  }
}

async function doneMaintenance(
  program: ApplicationContext,
  by: Visitor,
): Promise<readonly (DoneMaintenance & { readonly printerId: string })[]> {
  const { db } = program.casebook;
  const labels = new Map((await listPrinters(db)).map(({ id, label }) => [id, label]));
  const { plan } = await maintenanceList(program, {}, by);
  const own = new Map(plan.rules.map(({ task, label }) => [task, label]));
  return [...(await readMaintenanceLogs(db))].flatMap(([printerId, log]) =>
    entriesOf(log.events).flatMap(({ at, task, part, by, reading, isUndone }) =>
      task === null || isUndone
        ? []
        : [
            {
              printerId,
              at,
              printer: labels.get(printerId) ?? '',
              label: program.knowledge.maintenanceTasks.get(task)?.label ?? own.get(task) ?? task,
              part,
              by,
              printHours: reading?.printHours ?? null,
            },
          ],
    ),
  );
}

/** A label as part of a file's name. */
function fileNamePart(label: string): string {
  return (
    label
      .normalize('NFKD')
      .replace(/[^A-Za-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .toLowerCase() || 'without-name'
  );
}
