import { setImmediate } from 'node:timers/promises';
import { caseLineSchema, type CaseLine } from '../../../src-core/contract/case-line.ts';
import type { LoggedEvent } from '../../../src-core/session/logged-event.ts';
import { insertCase, readCase, readLogs } from '../../casebook/case.repository.ts';
import { savePrinter } from '../../casebook/printer.repository.ts';
import { saveSpool } from '../../casebook/spool.repository.ts';
import { topCauseOf } from '../case-reader.ts';
import { projectCase } from '../case-projection.ts';
import type { Handler } from '../dispatcher.ts';
import { faultInWords } from '../fault-words.ts';
import { isStillToCome } from '../still-to-come.ts';
import type { Program } from '../program.ts';
import { readShop } from './shop.ts';

export const caseExport: Handler<'case:export'> = async (program, { caseIds }) => {
  const { casebook } = program;
  const shop = await readShop(program);
  const logs = await readLogs(casebook.db, caseIds);
  const lines: string[] = [];
  for (const [caseId, log] of logs) {
    // The casebook reads without waiting: other calls get their turn between the cases.
    await setImmediate();
    const record = await readCase(casebook.db, caseId);
    const printer = shop.printers.find((one) => one.id === record?.printer_id);
    const spool = shop.spools.find((one) => one.id === record?.spool_id);
    const line: CaseLine = {
      format: 'beadwright-case/1',
      caseId,
      printer: printer
        ? {
            id: printer.id,
            label: printer.label,
            conditions: printer.conditions,
            printHours: printer.printHours,
            note: printer.note,
            isRetired: printer.isRetired,
          }
        : null,
      spool: spool
        ? {
            id: spool.id,
            label: spool.label,
            polymer: spool.polymer,
            filler: spool.filler,
            fillerPercent: spool.fillerPercent,
            storage: spool.storage,
            openedAt: spool.openedAt,
            filamentDiameterMm: spool.filamentDiameterMm,
            filamentGrams: spool.filamentGrams,
            body: spool.body,
            note: spool.note,
            isRetired: spool.isRetired,
          }
        : null,
      knowledgeVersion: record?.knowledge_version ?? '',
      engineVersion: record?.engine_version ?? '',
      events: log,
    };
    lines.push(JSON.stringify(line));
  }
  return { jsonLines: lines.map((line) => `${line}\n`).join(''), count: lines.length };
};

export const caseImport: Handler<'case:import'> = async (program, { jsonLines }) => {
  let imported = 0;
  let known = 0;
  const faults: { line: number; message: string }[] = [];
  for (const [index, text] of jsonLines.split('\n').entries()) {
    if (text.trim() === '') continue;
    await setImmediate();
    const result = await importLine(program, text);
    if (result === 'imported') imported++;
    else if (result === 'known') known++;
    else faults.push({ line: index + 1, message: result.fault });
  }
  return { imported, known, faults };
};

/** One bad line is reported and skipped: the good ones still come in. */
async function importLine(program: Program, text: string): Promise<'imported' | 'known' | { fault: string }> {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    return { fault: 'not JSON; each line holds one whole case as exported' };
  }
  const parsed = caseLineSchema.safeParse(raw);
  if (!parsed.success) return { fault: faultInWords(parsed.error) };
  const line = parsed.data;
  const fault = faultOfSequence(line.events) ?? faultOfRecords(line) ?? faultOfTimes(line, program.now());
  if (fault) return { fault };
  const { db } = program.casebook;
  if (await readCase(db, line.caseId)) return 'known';
  const replayed = program.flow.replay(line.events);
  if (!replayed.ok)
    return { fault: `event ${replayed.refusedSeq} does not fit this guide: ${replayed.reason}` };

  await addMissingRecords(program, line);
  const { moment } = replayed;
  const topCause = await topCauseOf(program, moment);
  const { record, causes } = projectCase({
    caseId: line.caseId,
    knowledge: program.knowledge,
    log: line.events,
    moment,
    topCause,
    isDemo: false,
    searchWords: [line.printer?.label ?? '', line.spool?.label ?? ''],
  });
  const asReasonedThen = {
    ...record,
    knowledge_version: line.knowledgeVersion,
    engine_version: line.engineVersion,
  };
  await insertCase(db, line.events, asReasonedThen, causes);
  return 'imported';
}

function faultOfSequence(events: readonly LoggedEvent[]): string | null {
  const wrong = events.findIndex(({ seq }, index) => seq !== index + 1);
  if (wrong >= 0)
    return `event ${wrong + 1} is numbered ${events[wrong]?.seq}; events count from 1 without gaps`;
  return events[0]?.event.kind === 'opened' ? null : 'the first event must be "opened"';
}

/** A case from the future would lead every list until then. */
function faultOfTimes({ events }: CaseLine, now: Date): string | null {
  const late = events.find(({ at }) => isStillToCome(at, now));
  return late ? `event ${late.seq} is of ${late.at}, which is still to come` : null;
}

function faultOfRecords(line: CaseLine): string | null {
  const opened = line.events[0]?.event;
  if (opened?.kind !== 'opened') return null;
  if (opened.intake.printerId !== (line.printer?.id ?? null))
    return 'the case names a printer that the line does not bring';
  return opened.intake.spoolId === (line.spool?.id ?? null)
    ? null
    : 'the case names a spool that the line does not bring';
}

async function addMissingRecords(program: Program, line: CaseLine): Promise<void> {
  const shop = await readShop(program);
  const { db } = program.casebook;
  if (line.printer && !shop.printers.some((one) => one.id === line.printer?.id)) {
    await savePrinter(db, { ...line.printer, isDemo: false }, program.now().toISOString());
  }
  if (line.spool && !shop.spools.some((one) => one.id === line.spool?.id)) {
    await saveSpool(db, { ...line.spool, isDemo: false });
  }
}
