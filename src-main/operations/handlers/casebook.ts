import { printHoursBetween } from '../../../src-core/recurrence/print-hours.ts';
import { recurrencesOf } from '../../../src-core/recurrence/recurrence.ts';
import type { Ranking } from '../../../src-core/session/case-step.ts';
import { undoneSeqs, type LoggedEvent } from '../../../src-core/session/logged-event.ts';
import { causeLabel, eventText } from '../../../src-core/session/wording.ts';
import { inOtherWords } from '../../../src-core/words/in-other-words.ts';
import { createWordBook } from '../../../src-core/words/word-book.ts';
import { listCases, listClosedCauses } from '../../casebook/case-list.repository.ts';
import { readRankings, writeRankings, type MadeUnder } from '../../casebook/case-step.repository.ts';
import { listHourReadings, listPrinters } from '../../casebook/printer.repository.ts';
import type { Handler } from '../dispatcher.ts';
import { loadCase } from '../case-reader.ts';
import type { Program } from '../program.ts';

const TIMELINE_CANDIDATES = 6;

export const caseList: Handler<'case:list'> = ({ casebook, knowledge }, filter) =>
  listCases(casebook.db, filter, inOtherWords(filter.search, createWordBook(knowledge.words)));

/** What was thought after each entry, as it was kept; worked out again, once, where it was kept under another guide. */
export const caseTimeline: Handler<'case:timeline'> = async (program, { caseId }) => {
  const { knowledge } = program;
  const { log, record, step, under } = await loadCase(program, caseId);
  const undone = undoneSeqs(log);
  const rankings = await rankingsUnder(program, caseId, log, under);
  return {
    caseId,
    number: record.number,
    isSameKnowledge:
      record.knowledge_version === under.knowledgeVersion && record.engine_version === under.engineVersion,
    steps: log
      .filter(({ event }) => event.kind !== 'step-ticked')
      .map(({ seq, at, event }) => ({
        seq,
        at,
        kind: event.kind,
        text: eventText(knowledge, event),
        isUndone: undone.has(seq),
        photo: event.kind === 'photographed' ? event.photo : null,
        candidates: (rankings.get(seq) ?? []).slice(0, TIMELINE_CANDIDATES).map(([cause, probability]) => ({
          cause,
          label: causeLabel(knowledge, cause),
          probability,
        })),
      })),
    refusedSeq: step.noPlaceFor[0]?.seq ?? null,
  };
};

async function rankingsUnder(
  program: Program,
  caseId: string,
  log: readonly LoggedEvent[],
  under: MadeUnder,
): Promise<ReadonlyMap<number, Ranking>> {
  const { db } = program.casebook;
  const kept = await readRankings(db, caseId, under);
  if (log.every(({ seq }) => kept.has(seq))) return kept;
  const made = await program.reasoner.run('rankings', log);
  try {
    await db.transaction().execute((trx) => writeRankings(trx, caseId, made, under));
  } catch {
    // A full disk or a casebook that may not be written: shown all the same, and worked out again next time.
  }
  return new Map(made.map(({ seq, ranking }) => [seq, ranking]));
}

export const leadRecurrence: Handler<'lead:recurrence'> = async ({ casebook, knowledge }, { from, to }) => {
  const rows = await listClosedCauses(casebook.db, from, to);
  const printers = await listPrinters(casebook.db);
  const hours = printHoursBetween(await listHourReadings(casebook.db), from, to);
  const recurrences = recurrencesOf(rows, hours);
  // A case with two causes is one case: its minutes and grams count once, with its first cause.
  const cases = rows.filter((row) => row.position === 0);
  const practicesOf = (cause: string) =>
    (knowledge.causes.get(cause)?.practices ?? []).flatMap((id) => {
      const practice = knowledge.practices.get(id);
      return practice ? [{ id, label: practice.label, better: practice.better }] : [];
    });
  const labelOf = (cause: string) =>
    rows.find((row) => row.cause === cause)?.causeLabel ?? causeLabel(knowledge, cause);
  return {
    from,
    to,
    caseCount: cases.length,
    minutesLost: sum(cases, (row) => row.minutesLost),
    gramsScrapped: sum(cases, (row) => row.gramsScrapped),
    rows: recurrences.map((row) => ({
      ...row,
      printerLabel: printers.find((printer) => printer.id === row.printerId)?.label ?? '',
      causeLabel: labelOf(row.cause),
      practices: practicesOf(row.cause),
    })),
    causes: tally(rows, (row) => row.cause).map(([cause, group]) => ({
      cause,
      causeLabel: labelOf(cause),
      count: group.length,
      minutesLost: sum(group, (row) => row.minutesLost),
      gramsScrapped: sum(group, (row) => row.gramsScrapped),
    })),
    practices: tally(
      cases.filter((row) => row.practice !== null),
      (row) => row.practice ?? '',
    ).flatMap(([id, group]) => {
      const practice = knowledge.practices.get(id);
      if (!practice) return [];
      return [
        {
          id,
          label: practice.label,
          better: practice.better,
          count: group.length,
          minutesLost: sum(group, (row) => row.minutesLost),
        },
      ];
    }),
    months: tally(cases, (row) => monthOf(row.openedAt))
      .map(([month, group]) => ({
        month,
        count: group.length,
        minutesLost: sum(group, (row) => row.minutesLost),
      }))
      .sort((a, b) => a.month.localeCompare(b.month)),
  };
};

/** The month in which a case was opened by the clock on the wall, as its period is chosen: "2026-11". */
function monthOf(time: string): string {
  const at = new Date(time);
  return `${at.getFullYear()}-${String(at.getMonth() + 1).padStart(2, '0')}`;
}

function sum<T>(entries: readonly T[], of: (entry: T) => number): number {
  return entries.reduce((total, entry) => total + of(entry), 0);
}

/** Groups by key, largest group first. */
function tally<T>(entries: readonly T[], keyOf: (entry: T) => string): [string, T[]][] {
  return [...Map.groupBy(entries, keyOf)].sort(([, a], [, b]) => b.length - a.length);
}
