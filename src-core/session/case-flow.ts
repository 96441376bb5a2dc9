import { initialTransition, transition, type SnapshotFrom } from 'xstate';
import type { CaseEvent } from '../contract/case-event.ts';
import type { CaseState } from '../contract/case-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { createCaseMachine, machineEvent, type CaseContext, type CaseMachine } from './case-machine.ts';
import { faultOfEvent } from './event-fault.ts';
import { knownPartOf } from './known-part.ts';
import { eventToday } from './todays-ids.ts';
import { eventsInForce, hasUndoable, type LoggedEvent } from './logged-event.ts';
import { faults } from '../words/en/faults.ts';
import type { Message } from '../words/message.ts';

/**
 * A case at one moment: where its flow stands and what is known. Plain data, and all that the machine needs to go on: it can
 * be stored and taken up again.
 */
export interface CaseMoment {
  readonly state: CaseState | 'intake';
  /** Where an open case was before it was left; null while it never was. */
  readonly was: CaseState | null;
  readonly context: CaseContext;
}

/** An entry that this guide or flow has no place for any more. It stands in the log, and nothing follows from it. */
export interface NoPlaceFor {
  readonly seq: number;
  readonly reason: Message;
}

export interface FlowResult {
  readonly moment: CaseMoment;
  readonly noPlaceFor: readonly NoPlaceFor[];
}

export type StepResult =
  { readonly ok: true; readonly moment: CaseMoment } | { readonly ok: false; readonly reason: Message };

/** The flow of cases under one guide. */
export interface CaseFlow {
  /** A case before its first event. */
  readonly initial: CaseMoment;
  /** One event more, or why it does not fit. Not for an undo, which looks at the whole log: replay that. */
  step(moment: CaseMoment, event: CaseEvent): StepResult;
  /**
   * Folds a log, from its beginning or from a moment on. Always gives a moment: what no longer fits is passed over and
   * named.
   */
  replay(log: readonly LoggedEvent[], from?: CaseMoment): FlowResult;
  /** Why `event` cannot follow `log` now, or null when it can. */
  refusalOf(log: readonly LoggedEvent[], event: CaseEvent): Message | null;
}

const OPEN = 'open';
const HISTORY = 'case.open.where-it-was';

export function createCaseFlow(knowledge: Knowledge): CaseFlow {
  const dangerIds = new Set(
    [...knowledge.observations.values()].filter((one) => one.danger).map((one) => one.id),
  );
  const machine = createCaseMachine(dangerIds);
  const [first] = initialTransition(machine);
  const initial = momentOf(first);

  const step = (moment: CaseMoment, event: CaseEvent): StepResult => {
    const fault = faultOfEvent(knowledge, moment.context, event);
    return fault ? { ok: false, reason: fault } : fold(moment, event);
  };

  const fold = (moment: CaseMoment, event: CaseEvent): StepResult => {
    const snapshot = snapshotOf(machine, moment);
    const asMachineEvent = machineEvent(event);
    if (!snapshot.can(asMachineEvent)) {
      return { ok: false, reason: faults.doesNotFitNow({ kind: event.kind, state: moment.state }) };
    }
    const [next] = transition(machine, snapshot, asMachineEvent);
    return { ok: true, moment: momentOf(next) };
  };

  const replay = (log: readonly LoggedEvent[], from = initial): FlowResult => {
    let moment = from;
    const noPlaceFor: NoPlaceFor[] = [];
    for (const { seq, event } of eventsInForce(log)) {
      const said = eventToday(knowledge, event);
      const { known, lost } = knownPartOf(knowledge, said);
      const result = lost === null ? step(moment, known) : fold(moment, known);
      if (result.ok) moment = withWhatWasSaid(result.moment, said);
      const reason = result.ok ? lost : result.reason;
      if (reason !== null) noPlaceFor.push({ seq, reason });
    }
    return { moment, noPlaceFor };
  };

  const refusalOf = (log: readonly LoggedEvent[], event: CaseEvent): Message | null => {
    if (event.kind === 'undone') return hasUndoable(log) ? null : faults.nothingToTakeBack();
    const result = step(replay(log).moment, event);
    return result.ok ? null : result.reason;
  };

  return { initial, step, replay, refusalOf };
}

function momentOf({ value, historyValue, context }: SnapshotFrom<CaseMachine>): CaseMoment {
  // History holds the states that were left, by the history state that brings them back.
  const left = Object.values(historyValue as Record<string, readonly { readonly key: string }[]>).flat();
  return {
    state: (typeof value === 'string' ? value : value.open) as CaseMoment['state'],
    was: (left[0]?.key ?? null) as CaseState | null,
    context,
  };
}

/** A complaint that only an earlier guide knew still heads the case, though nothing can be made of it. */
function withWhatWasSaid(moment: CaseMoment, event: CaseEvent): CaseMoment {
  const { intake } = moment.context;
  if (event.kind !== 'opened' || !intake) return moment;
  const { complaints } = event.intake;
  return { ...moment, context: { ...moment.context, intake: { ...intake, complaints } } };
}

const OUTSIDE: ReadonlySet<CaseMoment['state']> = new Set(['intake', 'closed', 'parked', 'handed-over']);

function snapshotOf(machine: CaseMachine, { state, was, context }: CaseMoment): SnapshotFrom<CaseMachine> {
  return machine.resolveState({
    value: (OUTSIDE.has(state) ? state : { [OPEN]: state }) as SnapshotFrom<CaseMachine>['value'],
    context,
    historyValue: was === null ? {} : { [HISTORY]: [machine.getStateNodeById(`case.${OPEN}.${was}`)] },
  });
}
