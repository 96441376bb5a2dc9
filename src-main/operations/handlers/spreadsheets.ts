import { createHash } from 'node:crypto';
import { setImmediate } from 'node:timers/promises';
import type {
  SpreadsheetMapping,
  SpreadsheetReport,
  UnknownWord,
} from '../../../src-core/contract/spreadsheet-view.ts';
import { fitsSheet, guessMapping } from '../../../src-core/spreadsheet/guess-mapping.ts';
import { guideWords, keyOf, type GuideWords } from '../../../src-core/spreadsheet/guide-words.ts';
import { nameOfPlace, readSheet, type Sheet } from '../../../src-core/spreadsheet/read-rows.ts';
import { readRow, type RowReader } from '../../../src-core/spreadsheet/row-to-case.ts';
import type { LoggedEvent } from '../../../src-core/session/logged-event.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { importFaults } from '../../../src-core/words/en/import-faults.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { insertCase, readCase } from '../../casebook/case.repository.ts';
import { isBinned } from '../../casebook/bin.repository.ts';
import { insertImport, listImports, undoImport } from '../../casebook/import.repository.ts';
import { listPrinters } from '../../casebook/printer.repository.ts';
import { readSpreadsheetMapping, saveSetting } from '../../casebook/shop-setting.repository.ts';
import { listSpools } from '../../casebook/spool.repository.ts';
import type { ApplicationContext } from '../application-context.ts';
import { projectCase, type CaseProjection } from '../case-projection.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';
import { readCalendar } from './recurrence.ts';

const SAMPLES = 3;
const PREVIEW = 8;
const MOST_ROWS = 50_000;

export const spreadsheetLook: Handler<'spreadsheet:look'> = async (program, { text }) => {
  const sheet = sheetOf(text);
  const remembered = await readSpreadsheetMapping(program.casebook.db);
  const isRemembered = remembered !== null && fitsSheet(remembered, sheet);
  return {
    columns: sheet.columns.map((name, i) => ({
      name,
      place: name === nameOfPlace(i + 1) ? i + 1 : null,
      samples: [...new Set(sheet.rows.map(({ cells }) => cells.get(name) ?? ''))]
        .filter((one) => one !== '')
        .slice(0, SAMPLES)
        .map((one) => one.slice(0, 80)),
    })),
    rowCount: sheet.rows.length,
    mapping: isRemembered ? remembered : { ...guessMapping(sheet), ...wordsIn(remembered) },
    isRemembered,
  };
};

/** What words stood for counts for another file too. */
function wordsIn(mapping: SpreadsheetMapping | null) {
  return mapping ? { complaints: mapping.complaints, causes: mapping.causes } : {};
}

interface FreshCase extends CaseProjection {
  readonly line: number;
  readonly caseId: string;
  readonly log: readonly LoggedEvent[];
}

export const spreadsheetImport: Handler<'spreadsheet:import'> = async (
  program,
  { fileName, text, mapping, isDryRun },
) => {
  const sheet = sheetOf(text);
  const missing = Object.values(mapping.columns).filter((name) => !sheet.columns.includes(name));
  if (missing.length > 0)
    throw new DomainError(
      'bad-request',
      refusals.noSuchColumn({ names: missing.map((name) => refusals.quoted({ name })) }),
    );
  const { db } = program.casebook;
  const reader = await readerFor(program, mapping);
  const faults: { line: number; message: Message }[] = [];
  const unknown = new Map<string, UnknownWord>();
  const fresh = new Map<string, FreshCase>();
  let known = 0;
  for (const row of sheet.rows) {
    await setImmediate();
    const result = readRow(row, reader);
    if (!('read' in result)) {
      faults.push({ line: result.line, message: result.fault });
      for (const { field, text: words } of result.unknown) countUnknown(unknown, reader.words, field, words);
      continue;
    }
    const caseId = idOf(result.read.identity, result.read.log[0]?.at ?? '');
    const { log } = result.read;
    if (fresh.has(caseId) || (await readCase(db, caseId)) || (await isBinned(db, caseId))) {
      known++;
      continue;
    }
    const projection = projected(program, caseId, log);
    if ('misfit' in projection) faults.push({ line: row.line, message: projection.misfit });
    else fresh.set(caseId, { line: row.line, caseId, log, ...projection });
  }
  const printers = await listPrinters(db);
  const report: Omit<SpreadsheetReport, 'importId' | 'fresh' | 'known'> = {
    preview: [...fresh.values()].slice(0, PREVIEW).map((one) => previewOf(one, printers)),
    faults,
    unknownWords: [...unknown.values()].sort((a, b) => b.count - a.count),
  };
  if (isDryRun) return { ...report, fresh: fresh.size, known, importId: null };
  const importId = program.newId();
  const written = await writeAll(program, [...fresh.values()], { importId, fileName, mapping });
  return {
    ...report,
    fresh: written,
    known: known + fresh.size - written,
    importId: written > 0 ? importId : null,
  };
};

export const spreadsheetImports: Handler<'spreadsheet:imports'> = async ({ casebook }) => ({
  imports: await listImports(casebook.db),
});

export const spreadsheetUndo: Handler<'spreadsheet:undo'> = async ({ casebook: { db } }, { importId }) => {
  // Taken back twice, the second finds nothing: nothing more is lost.
  const { removed, kept } = await db.transaction().execute((trx) => undoImport(trx, importId));
  return { removed, kept, imports: await listImports(db) };
};

function sheetOf(text: string): Sheet {
  const sheet = readSheet(text);
  if (sheet.columns.length < 2) throw new DomainError('bad-request', refusals.noTable());
  if (sheet.rows.length > MOST_ROWS)
    throw new DomainError('bad-request', refusals.mostRows({ count: MOST_ROWS }));
  return sheet;
}

async function readerFor(program: ApplicationContext, mapping: SpreadsheetMapping): Promise<RowReader> {
  const { db } = program.casebook;
  const byLabel = (
    records: readonly { readonly id: string; readonly label: string; readonly isRetired: boolean }[],
  ) =>
    // Of two of one name the one in use.
    new Map(
      records
        .toSorted((a, b) => Number(b.isRetired) - Number(a.isRetired))
        .map(({ id, label }) => [keyOf(label), id]),
    );
  return {
    mapping,
    words: guideWords(program.knowledge),
    printers: byLabel(await listPrinters(db)),
    spools: byLabel(await listSpools(db)),
    calendar: await readCalendar(program),
    nowMs: program.now().getTime(),
  };
}

function countUnknown(
  unknown: Map<string, UnknownWord>,
  words: GuideWords,
  field: UnknownWord['field'],
  text: string,
): void {
  const key = `${field} ${keyOf(text)}`;
  const before = unknown.get(key);
  unknown.set(
    key,
    before
      ? { ...before, count: before.count + 1 }
      : { field, text, count: 1, suggestions: words.suggest(field, text) },
  );
}

/** What the row adds up to, or what the flow has no place for in it: the same check as for an imported case. */
function projected(
  program: ApplicationContext,
  caseId: string,
  log: readonly LoggedEvent[],
): CaseProjection | { readonly misfit: Message } {
  const { moment, noPlaceFor } = program.flow.replay(log);
  const [misfit] = noPlaceFor;
  if (misfit) return { misfit: importFaults.misfit({ why: misfit.reason }) };
  return projectCase({
    caseId,
    knowledge: program.knowledge,
    log,
    moment,
    topCause: null,
    engineVersion: program.engineVersion,
    isDemo: false,
  });
}

function previewOf(
  { line, record }: FreshCase,
  printers: readonly { readonly id: string; readonly label: string }[],
): SpreadsheetReport['preview'][number] {
  return {
    line,
    openedAt: record.opened_at,
    printer: printers.find(({ id }) => id === record.printer_id)?.label ?? '',
    complaint: record.complaint,
    cause: record.cause_label,
    minutesLost: record.minutes_lost,
    gramsScrapped: record.grams_scrapped,
  };
}

/** All of a file or nothing, with the record of it; what came in meanwhile is left as it is. */
function writeAll(
  { casebook: { db }, now }: ApplicationContext,
  cases: readonly FreshCase[],
  { importId, fileName, mapping }: { importId: string; fileName: string; mapping: SpreadsheetMapping },
): Promise<number> {
  return db.transaction().execute(async (trx) => {
    const written: { caseId: string; revision: number }[] = [];
    for (const { caseId, log, record, causes } of cases) {
      if (await readCase(trx, caseId)) continue;
      await insertCase(trx, log, record, causes);
      written.push({ caseId, revision: log.length });
    }
    if (written.length > 0) await insertImport(trx, { importId, at: now().toISOString(), fileName }, written);
    if (JSON.stringify(mapping) !== JSON.stringify(await readSpreadsheetMapping(trx)))
      await saveSetting(trx, 'spreadsheet-mapping', mapping);
    return written.length;
  });
}

const CROCKFORD = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
/** Characters of an id that tell the time, and those besides. */
const TIME_CHARACTERS = 10;
const OTHER_CHARACTERS = 16;

/** The id that this row has whenever it is read: by it a row that was imported is known again. Sorts by when the case was opened. */
function idOf(identity: string, openedAt: string): string {
  const digest = createHash('sha256').update(identity).digest();
  let ms = Date.parse(openedAt);
  let time = '';
  for (let i = 0; i < TIME_CHARACTERS; i++) {
    time = CROCKFORD.charAt(ms % 32) + time;
    ms = Math.floor(ms / 32);
  }
  return time + [...digest.subarray(0, OTHER_CHARACTERS)].map((byte) => CROCKFORD.charAt(byte % 32)).join('');
}
