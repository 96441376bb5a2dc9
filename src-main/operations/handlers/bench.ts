import type { Bench, OpenCase } from '../../../src-core/contract/bench-view.ts';
import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import { CASE_STATES, type CaseState } from '../../../src-core/contract/case-view.ts';
import { dangerSignsIn } from '../../../src-core/session/danger-signs.ts';
import { runningTimer } from '../../../src-core/session/running-timer.ts';
import { eventsInForce, type LoggedEvent } from '../../../src-core/session/logged-event.ts';
import { observationLabel, remedyLabel } from '../../../src-core/session/wording.ts';
import { countClosedCases, listOpenCases, listPastCases } from '../../casebook/bench.repository.ts';
import { readLog } from '../../casebook/case.repository.ts';
import { listPrinters } from '../../casebook/printer.repository.ts';
import type { ApplicationContext } from '../application-context.ts';
import type { Handler } from '../dispatcher.ts';

/** Past cases that help at the machine; more are in the casebook. */
const MOST_PAST_CASES = 5;

export const benchRead: Handler<'bench:read'> = (program) => program.bench.get(() => readBench(program));

/** Every printer and every open case, without any reasoning: what the board in the shop shows. */
export async function readBench({ casebook, knowledge, flow }: ApplicationContext): Promise<Bench> {
  const { db } = casebook;
  const printers = (await listPrinters(db)).filter((one) => !one.isRetired);
  const openCases = (await listOpenCases(db)).map(async (row) => {
    const log = await readLog(db, row.id);
    const { context } = flow.replay(log).moment;
    const waiting = eventsInForce(log).findLast(
      ({ event }) => event.kind === 'parked' || event.kind === 'handed-over',
    );
    const isWaiting = row.state === 'parked' || row.state === 'handed-over';
    const rest = isWaiting ? restOf(waiting?.event) : NOT_RESTING;
    return {
      caseId: row.id,
      number: row.number,
      state: stateOf(row.state),
      printerId: row.printer_id,
      complaint: row.complaint,
      openedAt: row.opened_at,
      openedBy: row.opened_by,
      waitingSince: isWaiting ? (waiting?.at ?? null) : null,
      ...rest,
      timer: context.remedy && timerOf(log, remedyLabel(knowledge, context.remedy.id)),
      dangerSigns:
        context.takenOverBy === null
          ? dangerSignsIn(knowledge, context.findings).map((id) => observationLabel(knowledge, id))
          : [],
      isDemo: row.is_demo === 1,
    };
  });
  return {
    printers: printers.map(({ id, label, note, isDemo }) => ({ id, label, note, isDemo })),
    openCases: await Promise.all(openCases),
    closedCases: await countClosedCases(db),
  };
}

/** What it was the last times on this printer or with this spool, and what cured it. */
export const caseLastTime: Handler<'case:last-time'> = async ({ casebook, knowledge }, of) => {
  if (of.printerId === null && of.spoolId === null) return { cases: [] };
  const rows = await listPastCases(casebook.db, of, MOST_PAST_CASES);
  const cases = rows.map(async (row) => {
    const log = eventsInForce(await readLog(casebook.db, row.id));
    const cured = log.findLastIndex(({ event }) => event.kind === 'verified' && event.outcome === 'cured');
    const chosen = log.slice(0, Math.max(cured, 0)).findLast(({ event }) => event.kind === 'remedy-chosen');
    return {
      caseId: row.id,
      number: row.number,
      closedAt: row.closed_at ?? row.opened_at,
      isSamePrinter: of.printerId !== null && row.printer_id === of.printerId,
      isSameSpool: of.spoolId !== null && row.spool_id === of.spoolId,
      complaint: row.complaint,
      cause: row.cause_label,
      cure: chosen?.event.kind === 'remedy-chosen' ? remedyLabel(knowledge, chosen.event.remedy) : null,
    };
  });
  return { cases: await Promise.all(cases) };
};

function timerOf(log: readonly LoggedEvent[], remedy: string): OpenCase['timer'] {
  const timer = runningTimer(log);
  return timer && { ...timer, remedy };
}

const NOT_RESTING = { reason: null, handedTo: null, part: null, dueOn: null };

/** Why a case rests, for whom, and for what. */
function restOf(event: CaseEvent | undefined): Pick<OpenCase, keyof typeof NOT_RESTING> {
  if (event?.kind !== 'parked' && event?.kind !== 'handed-over') return NOT_RESTING;
  return {
    reason: event.note || null,
    handedTo: event.kind === 'handed-over' ? (event.to ?? null) : null,
    part: event.part ?? null,
    dueOn: event.dueOn ?? null,
  };
}

function stateOf(text: string): CaseState {
  return CASE_STATES.find((one) => one === text) ?? 'checking';
}
