import { setImmediate } from 'node:timers/promises';
import { caseLineSchema, type CaseLine } from '../../../src-core/contract/case-line.ts';
import type { Shop } from '../../../src-core/contract/shop-records.ts';
import { checkJpeg } from '../../../src-core/photos/jpeg-check.ts';
import { reassigned } from '../../../src-core/session/case-changes.ts';
import { emptyContext, type CaseContext } from '../../../src-core/session/case-context.ts';
import type { LoggedEvent } from '../../../src-core/session/logged-event.ts';
import { importFaults } from '../../../src-core/words/en/import-faults.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { hashOf } from '../../casebook/photo-folder.ts';
import { eventsForLine, readCasesAfter, type ExportedCase } from '../../casebook/case-export.repository.ts';
import { insertCase, readCase } from '../../casebook/case.repository.ts';
import type { CasebookDb, PhotoKeeper } from '../../casebook/casebook.ts';
import { listPrinters, savePrinter } from '../../casebook/printer.repository.ts';
import { listSpools, saveSpool } from '../../casebook/spool.repository.ts';
import { readStoredEvent } from '../../casebook/stored-event.ts';
import { topCauseOf } from '../case-reader.ts';
import { projectCase } from '../case-projection.ts';
import type { Handler } from '../dispatcher.ts';
import { faultOfContract } from '../fault-words.ts';
import type { ApplicationContext } from '../application-context.ts';
import { faultOfPrinter, faultOfSpool, freeLabel } from '../record-checks.ts';
import { isBeforeOurTime, isStillToCome } from '../still-to-come.ts';
import { readShop } from './shop.ts';

/** Characters after which a page of an export ends: small enough for any screen, large enough to be quick. */
const PAGE_CHARACTERS = 4 * 1024 * 1024;

/** One page of whole cases, one a line. Memory does not grow with the casebook; the caller asks on until `next` is null. */
export const caseExport: Handler<'case:export'> = async (program, { caseIds, after }) => {
  const { casebook } = program;
  const shop = await readShop(program);
  const lines: string[] = [];
  const setAside: { number: number; seq: number; fault: Message }[] = [];
  let length = 0;
  let last = after;
  for (;;) {
    const lot = await readCasesAfter(casebook.db, caseIds, last);
    if (lot.length === 0) return { jsonLines: lines.join(''), count: lines.length, next: null, setAside };
    for (const one of lot) {
      last = one.caseId;
      if (one.rows.length === 0) {
        setAside.push({ number: one.number, seq: 0, fault: importFaults.noEntries() });
        continue;
      }
      const { line, faults } = await lineOf(shop, one, casebook.photos);
      setAside.push(...faults.map((fault) => ({ number: one.number, ...fault })));
      lines.push(line);
      length += line.length;
      if (length >= PAGE_CHARACTERS)
        return { jsonLines: lines.join(''), count: lines.length, next: last, setAside };
    }
    // The casebook reads without waiting: other calls get their turn between the lots.
    await setImmediate();
  }
};

async function lineOf(shop: Shop, one: ExportedCase, store: PhotoKeeper) {
  const printer = shop.printers.find(({ id }) => id === one.printerId);
  const spool = shop.spools.find(({ id }) => id === one.spoolId);
  const { events, setAside } = eventsForLine(one.rows);
  const photos = await photosOf(events, store);
  const line: CaseLine = {
    format: 'beadwright-case/1',
    caseId: one.caseId,
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
          supplier: spool.supplier,
          batch: spool.batch,
          tareGrams: spool.tareGrams,
          note: spool.note,
          isRetired: spool.isRetired,
        }
      : null,
    knowledgeVersion: one.knowledgeVersion,
    engineVersion: one.engineVersion,
    events,
    ...(photos.length > 0 && { photos }),
  };
  return { line: `${JSON.stringify(line)}\n`, faults: setAside };
}

/** The photos that events name, as far as they can be had. */
async function photosOf(
  events: CaseLine['events'],
  store: PhotoKeeper,
): Promise<NonNullable<CaseLine['photos']>> {
  const hashes = new Set(
    events.flatMap((one) => ('event' in one && one.event.kind === 'photographed' ? one.event.photo : [])),
  );
  const photos: NonNullable<CaseLine['photos']> = [];
  for (const hash of hashes) {
    const bytes = await store.read(hash);
    if (bytes) photos.push({ hash, base64: bytes.toString('base64') });
  }
  return photos;
}

/** Takes in whole lines of an export; a large file comes in several calls, cut between lines. */
export const caseImport: Handler<'case:import'> = async (program, { jsonLines, isDryRun }) => {
  let imported = 0;
  let known = 0;
  const tried = new Set<string>();
  const faults: { line: number; message: Message }[] = [];
  for (const [index, text] of jsonLines.split('\n').entries()) {
    if (text.trim() === '') continue;
    await setImmediate();
    const result = await importLine(program, text, isDryRun ? tried : null);
    if (result === 'imported') imported++;
    else if (result === 'known') known++;
    else faults.push({ line: index + 1, message: result.fault });
  }
  return { imported, known, faults };
};

type Imported = 'imported' | 'known' | { readonly fault: Message };

/**
 * One bad line is reported and skipped: the good ones still come in. With `tried`, the ids that would have come in so far, nothing is
 * written.
 */
async function importLine(
  program: ApplicationContext,
  text: string,
  tried: Set<string> | null,
): Promise<Imported> {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    return { fault: importFaults.notJson() };
  }
  const parsed = caseLineSchema.safeParse(raw, { reportInput: true });
  if (!parsed.success) return { fault: faultOfContract(parsed.error) };
  const line = parsed.data;
  const { log, unreadable } = logOf(line);
  const fault =
    faultOfSequence(log) ?? faultOfRecords(program, line, log) ?? faultOfTimes(log, program.now());
  if (fault) return { fault };
  const { db } = program.casebook;
  const photos = (line.photos ?? []).map(({ hash, base64 }) => ({
    hash,
    bytes: Buffer.from(base64, 'base64'),
  }));
  for (const { hash, bytes } of photos) {
    const check = checkJpeg(bytes);
    if (!check.ok) return { fault: importFaults.photoOfIt({ why: check.fault }) };
    if (hashOf(bytes) !== hash) return { fault: importFaults.photoOfAnother() };
  }
  if (tried?.has(line.caseId) || (await readCase(db, line.caseId))) return 'known';
  const replayed = program.flow.replay(log);
  const [misfit] = replayed.noPlaceFor;
  if (misfit) return { fault: importFaults.eventMisfit({ seq: misfit.seq, why: misfit.reason }) };
  if (tried) {
    tried.add(line.caseId);
    return 'imported';
  }
  const { moment } = replayed;
  const { record, causes } = projectCase({
    caseId: line.caseId,
    knowledge: program.knowledge,
    log,
    moment,
    topCause: await topCauseOf(program, moment),
    engineVersion: program.engineVersion,
    isDemo: false,
  });
  const asReasonedThen = {
    ...record,
    knowledge_version: line.knowledgeVersion,
    engine_version: line.engineVersion,
  };
  for (const { bytes } of photos) await program.casebook.photos.keep(bytes);
  return db.transaction().execute(async (trx): Promise<Imported> => {
    // Looked at again: the same file may be on its way from another screen.
    if (await readCase(trx, line.caseId)) return 'known';
    await addMissingRecords(trx, line, program.now().toISOString());
    await insertCase(trx, log, asReasonedThen, causes, unreadable);
    return 'imported';
  });
}

/** The events of a line; those that could not be read where they came from stand as notes, and are kept as they lay there. */
function logOf({ events }: CaseLine): { log: LoggedEvent[]; unreadable: Map<number, string> } {
  const unreadable = new Map<number, string>();
  const log = events.map((one) => {
    if (!('unreadable' in one)) return one;
    unreadable.set(one.seq, one.unreadable);
    return readStoredEvent({
      seq: one.seq,
      at: one.at,
      event_json: one.unreadable,
      by_initials: one.by ?? null,
    }).logged;
  });
  return { log, unreadable };
}

function faultOfSequence(events: readonly LoggedEvent[]): Message | null {
  const at = events.findIndex(({ seq }, index) => seq !== index + 1);
  const wrong = events[at];
  if (wrong) return importFaults.eventNumber({ place: at + 1, seq: wrong.seq });
  return events[0]?.event.kind === 'opened' ? null : importFaults.openedFirst();
}

/** A case from the future would lead every list until then. */
function faultOfTimes(events: readonly LoggedEvent[], now: Date): Message | null {
  const late = events.find(({ at }) => isStillToCome(at, now));
  if (late) return importFaults.eventLate({ seq: late.seq, at: late.at });
  const early = events.find(({ at }) => isBeforeOurTime(at));
  return early ? importFaults.eventYear({ seq: early.seq, year: early.at.slice(0, 4) }) : null;
}

/** The same checks as for a printer and a spool that somebody types in. */
function faultOfRecords(
  program: ApplicationContext,
  line: CaseLine,
  log: readonly LoggedEvent[],
): Message | null {
  const opened = log[0]?.event;
  if (opened?.kind !== 'opened') return null;
  // A case may have been given to another printer or spool since it was opened: the line brings the last one.
  const { intake } = log.reduce<CaseContext>(
    (context, { event }) =>
      event.kind === 'reassigned' ? { ...context, ...reassigned(context, event) } : context,
    { ...emptyContext, intake: opened.intake },
  );
  if (intake?.printerId !== (line.printer?.id ?? null)) return importFaults.printerNotBrought();
  if (intake?.spoolId !== (line.spool?.id ?? null)) return importFaults.spoolNotBrought();
  const { knowledge } = program;
  return (
    (line.printer && faultOfPrinter(knowledge, line.printer)) ??
    (line.spool && faultOfSpool(knowledge, line.spool, program.now()))
  );
}

/** A record of the same id is the shop's own already; another of the same name keeps its name, and this one gets a number. */
async function addMissingRecords(trx: CasebookDb, line: CaseLine, at: string): Promise<void> {
  const { printer, spool } = line;
  if (printer) {
    const known = await listPrinters(trx);
    if (!known.some(({ id }) => id === printer.id))
      await savePrinter(trx, { ...printer, label: freeLabel(printer.label, known), isDemo: false }, at);
  }
  if (spool) {
    const known = await listSpools(trx);
    if (!known.some(({ id }) => id === spool.id))
      await saveSpool(trx, { ...spool, label: freeLabel(spool.label, known), isDemo: false });
  }
}
