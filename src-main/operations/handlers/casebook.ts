import { ENGINE_VERSION } from '../../../src-core/inference/index.ts';
import { printHoursBetween } from '../../../src-core/recurrence/print-hours.ts';
import { recurrencesOf } from '../../../src-core/recurrence/recurrence.ts';
import { undoneSeqs } from '../../../src-core/session/logged-event.ts';
import { causeLabel, eventText } from '../../../src-core/session/wording.ts';
import { inOtherWords } from '../../../src-core/words/in-other-words.ts';
import { createWordBook } from '../../../src-core/words/word-book.ts';
import { listCases, listClosedCauses } from '../../casebook/case-list.repository.ts';
import { readCase, readLog } from '../../casebook/case.repository.ts';
import { listHourReadings, listPrinters } from '../../casebook/printer.repository.ts';
import type { Handler } from '../dispatcher.ts';
import { Refusal } from '../refusal.ts';

const TIMELINE_CANDIDATES = 6;

export const caseList: Handler<'case:list'> = ({ casebook, knowledge }, filter) =>
  listCases(casebook.db, filter, inOtherWords(filter.search, createWordBook(knowledge.words)));

/** The case replayed event by event under today's guide and engine. */
export const caseTimeline: Handler<'case:timeline'> = async (program, { caseId }) => {
  const { casebook, knowledge, flow } = program;
  const log = await readLog(casebook.db, caseId);
  const record = await readCase(casebook.db, caseId);
  if (log.length === 0 || !record)
    throw new Refusal('not-found', 'there is no case with that id in this casebook');
  if (log[0]?.event.kind !== 'opened')
    throw new Refusal('refused', 'the first entry of this case cannot be read by this version');
  const undone = undoneSeqs(log);
  const refusedSeq = flow.replay(log).noPlaceFor[0]?.seq ?? null;
  const shown = log
    .filter(({ event }) => event.kind !== 'step-ticked')
    .map(async (logged) => {
      const { moment } = flow.replay(log.filter(({ seq }) => seq <= logged.seq));
      const ranking = await program.reasoner.run('rank', moment.context);
      return {
        seq: logged.seq,
        at: logged.at,
        kind: logged.event.kind,
        text: eventText(knowledge, logged.event),
        isUndone: undone.has(logged.seq),
        candidates: ranking.slice(0, TIMELINE_CANDIDATES).map(({ cause, probability }) => ({
          cause,
          label: causeLabel(knowledge, cause),
          probability,
        })),
      };
    });
  const steps = await Promise.all(shown);
  return {
    caseId,
    number: record.number,
    isSameKnowledge:
      record.knowledge_version === knowledge.version && record.engine_version === ENGINE_VERSION,
    steps,
    refusedSeq,
  };
};

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
