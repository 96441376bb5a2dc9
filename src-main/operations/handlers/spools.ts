import type { Spool } from '../../../src-core/contract/shop-records.ts';
import type { SpoolEvent, SpoolReport } from '../../../src-core/contract/spool-life.ts';
import { usualFlowMm3PerS } from '../../../src-core/flow/usual-flow.ts';
import type { Knowledge } from '../../../src-core/knowledge/knowledge.ts';
import {
  lastDriedAt,
  computeStorage,
  standingOf,
  undoneSpoolSeqs,
  waterOfMake,
  type LoggedSpoolEvent,
  type SpoolParts,
} from '../../../src-core/moisture/index.ts';
import { dryingRecipe } from '../../../src-core/session/drying-recipe.ts';
import { choiceLabel } from '../../../src-core/session/wording.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { faults } from '../../../src-core/words/en/faults.ts';
import { spoolLogTexts } from '../../../src-core/words/en/spool-log.ts';
import { inSentence } from '../../../src-core/words/in-sentence.ts';
import { celsius, decimalsOf, fixed, type Message, type Words } from '../../../src-core/words/message.ts';
import { newestCaseOfSpool } from '../../casebook/bench.repository.ts';
import { appendSpoolEvent, readSpoolLog } from '../../casebook/spool-event.repository.ts';
import { listPrinters } from '../../casebook/printer.repository.ts';
import { listSpools } from '../../casebook/spool.repository.ts';
import type { Handler } from '../dispatcher.ts';
import type { ApplicationContext } from '../application-context.ts';
import { DomainError } from '../domain-error.ts';
import { NOTHING_ASKED, computeOrSay, spoolParts } from '../spool-parts.ts';
import { isBeforeOurTime } from '../still-to-come.ts';

const { m } = spoolLogTexts;

/** The cause whose confirmation marks the spool; tests hold that the guide has it. */
const WET_FILAMENT = 'wet-filament';
/** The place that a printer may be named with. */
const ON_PRINTER = 'on-printer';

export const spoolRead: Handler<'spool:read'> = async (program, { spoolId, nozzleMm, ...question }) => {
  const usual = nozzleMm === null ? null : usualFlowMm3PerS(program.knowledge.melting, nozzleMm);
  return report(program, await spoolOf(program, spoolId), {
    ...question,
    flowMm3PerS: question.flowMm3PerS ?? usual,
  });
};

export const spoolStorage: Handler<'spool:storage'> = async (program, { spoolId, ...question }) => {
  const spool = await spoolOf(program, spoolId);
  const { make, log, climate, nowMs } = await spoolParts(program, spool, NOTHING_ASKED);
  const { knowledge } = program;
  if (!knowledge.barriers.has(question.barrier))
    throw new DomainError(
      'bad-request',
      refusals.noSuchWall({ id: question.barrier, known: [...knowledge.barriers.keys()] }),
    );
  if (!waterOfMake(knowledge, make)) throw new DomainError('bad-request', m.noFigures());
  try {
    return computeStorage(knowledge, make, log, climate, question, nowMs);
  } catch (error) {
    if (error instanceof RangeError)
      throw new DomainError('bad-request', m.unreckonable({ why: error.message }));
    throw error;
  }
};

export const spoolLog: Handler<'spool:log'> = async (program, { spoolId, event, at, revision }) => {
  const spool = await spoolOf(program, spoolId);
  const log = await readSpoolLog(program.casebook.db, spoolId);
  const when = at ?? program.now().toISOString();
  if (revision !== log.revision) return refuseStale(program, spool);
  const fault = faultOf(program, log.events, event, when);
  if (fault) throw new DomainError('refused', fault);
  const logged = { seq: log.revision + 1, at: when, event };
  await refuseUnreckonable(program, spool, [...log.events, logged]);
  const written = await appendSpoolEvent(program.casebook.db, spoolId, logged);
  if (written === 'stale') return refuseStale(program, spool);
  return report(program, spool, NOTHING_ASKED);
};

/** What nothing can be worked out from must not be stored: the page would have nothing to show from then on. */
async function refuseUnreckonable(
  program: ApplicationContext,
  spool: Spool,
  log: readonly LoggedSpoolEvent[],
): Promise<void> {
  const newest = log.at(-1);
  // Taking the last entry back is the way out of one that nothing can be worked out from.
  if (newest?.event.kind === 'undone') return;
  try {
    await program.reasoner.run('spool', { ...(await spoolParts(program, spool, NOTHING_ASKED)), log });
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new DomainError('refused', refusals.unreckonable({ why: reason }));
  }
}

async function refuseStale(program: ApplicationContext, spool: Spool): Promise<never> {
  throw new DomainError('stale', refusals.spoolMovedOn(), await report(program, spool, NOTHING_ASKED));
}

async function spoolOf(program: ApplicationContext, spoolId: string): Promise<Spool> {
  const spool = (await listSpools(program.casebook.db)).find(({ id }) => id === spoolId);
  if (!spool) throw new DomainError('not-found', refusals.spoolGone());
  return spool;
}

function faultOf(
  program: ApplicationContext,
  log: readonly LoggedSpoolEvent[],
  event: SpoolEvent,
  at: string,
): Message | null {
  if (Date.parse(at) > program.now().getTime()) return faults.timeNotCome();
  if (isBeforeOurTime(at)) return faults.yearNotMeant({ year: at.slice(0, 4) });
  const undone = undoneSpoolSeqs(log);
  const newest = log.findLast(({ seq }) => !undone.has(seq));
  if (event.kind === 'undone') return newest ? null : faults.nothingToTakeBack();
  if (newest && Date.parse(at) < Date.parse(newest.at)) return faults.newestIsLater({ at: newest.at });
  if (event.kind === 'moved' && event.printerId !== undefined && event.place !== ON_PRINTER)
    return faults.printerOnlyOnPrinter();
  if (event.kind === 'moved' && !program.knowledge.places.has(event.place))
    return faults.noSuchPlace({ id: event.place, known: [...program.knowledge.places.keys()] });
  if (event.kind === 'weighed' && event.filamentGramsAfter > event.filamentGramsBefore)
    return faults.heavierAfterDrying();
  if (event.kind === 'grams-left' && event.grossGrams < event.tareGrams) return faults.lighterThanEmpty();
  return null;
}

async function report(
  program: ApplicationContext,
  spool: Spool,
  question: SpoolParts['question'],
): Promise<SpoolReport> {
  const { knowledge } = program;
  const parts = await spoolParts(program, spool, question);
  const { unreadable, revision } = await readSpoolLog(program.casebook.db, spool.id);
  const undone = undoneSpoolSeqs(parts.log);
  const last = parts.log.findLast(({ seq, event }) => event.kind === 'moved' && !undone.has(seq));
  const driedAt = lastDriedAt(knowledge, parts.log);
  const foundWet = await foundWetIn(program, spool, driedAt);
  const figures = await computeOrSay(program, parts);
  const place = last?.event.kind === 'moved' ? knowledge.places.get(last.event.place) : undefined;
  const printers = new Map((await listPrinters(program.casebook.db)).map(({ id, label }) => [id, label]));
  return {
    spoolId: spool.id,
    label: spool.label,
    material: materialWords(knowledge, spool),
    place:
      place && last
        ? { id: place.id, label: eventWords(knowledge, last.event, printers), since: last.at }
        : null,
    revision,
    log: [
      ...parts.log
        .filter(({ event }) => event.kind !== 'undone')
        .map(({ seq, at, event }) => ({
          seq,
          at,
          text: eventWords(knowledge, event, printers),
          isUndone: undone.has(seq),
        })),
      ...unreadable.map(({ seq, at }) => ({
        seq,
        at,
        text: m.cannotBeRead(),
        isUndone: true,
      })),
    ].toSorted((a, b) => a.seq - b.seq),
    canUndo: parts.log.some(({ seq }) => !undone.has(seq)),
    supplier: spool.supplier,
    batch: spool.batch,
    tareGrams: spool.tareGrams,
    lastDriedAt: driedAt,
    gramsLeft: gramsLeftIn(parts.log, undone),
    foundWet,
    standing: standingOf({ ...figures, foundWet }),
    recipe: dryingRecipe(knowledge, spool, figures.drying),
    ...figures,
  };
}

/** The case that found it wet, unless it was dried since. */
async function foundWetIn(
  program: ApplicationContext,
  { id, openedAt }: Spool,
  driedAt: string | null,
): Promise<SpoolReport['foundWet']> {
  const found = await newestCaseOfSpool(program.casebook.db, id, WET_FILAMENT);
  // A case from before it was opened was of another spool under the same name.
  const since = [driedAt, openedAt].flatMap((at) => (at === null ? [] : Date.parse(at)));
  if (!found?.closed_at || Math.max(0, ...since) > Date.parse(found.closed_at)) return null;
  return { caseId: found.id, number: found.number, at: found.closed_at };
}

function gramsLeftIn(
  log: readonly LoggedSpoolEvent[],
  undone: ReadonlySet<number>,
): SpoolReport['gramsLeft'] {
  const newest = log.findLast(({ seq, event }) => event.kind === 'grams-left' && !undone.has(seq));
  return newest?.event.kind === 'grams-left'
    ? { grams: newest.event.grossGrams - newest.event.tareGrams, at: newest.at }
    : null;
}

function materialWords(knowledge: Knowledge, spool: Spool): Words {
  const polymer = choiceLabel(knowledge, 'polymer', spool.polymer);
  if (spool.filler === 'none') return polymer;
  const filler = inSentence(choiceLabel(knowledge, 'filler', spool.filler));
  return spool.fillerPercent === null
    ? m.withFiller({ polymer, filler })
    : m.withFillerShare({ polymer, filler, percent: spool.fillerPercent });
}

function eventWords(knowledge: Knowledge, event: SpoolEvent, printers: ReadonlyMap<string, string>): Words {
  switch (event.kind) {
    case 'moved': {
      const place = knowledge.places.get(event.place);
      const label = place?.label ?? event.place;
      const printer = printers.get(event.printerId ?? '');
      if (printer !== undefined) return m.onPrinter({ printer });
      if (place?.air === 'dryer')
        return event.temperatureC === null
          ? label
          : m.atTemperature({
              place: label,
              temperature: celsius(event.temperatureC, decimalsOf(event.temperatureC)),
            });
      return place?.air === 'closed' && event.desiccant === 'spent' ? m.spent({ place: label }) : label;
    }
    case 'weighed': {
      const lost = event.filamentGramsBefore - event.filamentGramsAfter;
      const share = (100 * lost) / event.filamentGramsAfter;
      return m.lostInDrying({ lost: fixed(lost, 1), share: fixed(share, 2) });
    }
    case 'grams-left':
      return m.gramsLeft({ grams: Math.round(event.grossGrams - event.tareGrams) });
    case 'undone':
      return m.tookBack();
  }
}
