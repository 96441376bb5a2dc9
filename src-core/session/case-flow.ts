import { initialTransition, transition, type SnapshotFrom } from 'xstate';
import type { CaseEvent } from '../contract/case-event.ts';
import type { CaseState } from '../contract/case-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { createCaseMachine, machineEvent, type CaseContext, type CaseMachine } from './case-machine.ts';
import { faultOfEvent } from './event-fault.ts';
import { eventToday } from './todays-ids.ts';
import { eventsInForce, hasUndoable, type LoggedEvent } from './logged-event.ts';

/** A case at one moment: where its flow stands and what is known. */
export interface CaseMoment {
  readonly state: CaseState | 'intake';
  readonly context: CaseContext;
}

export type FlowResult =
  | { readonly ok: true; readonly moment: CaseMoment }
  | { readonly ok: false; readonly refusedSeq: number; readonly reason: string; readonly moment: CaseMoment };

/** The flow of cases under one guide. */
export interface CaseFlow {
  /** Folds a log; stops before the first event that this guide or flow refuses. */
  replay(log: readonly LoggedEvent[]): FlowResult;
  /** Why `event` cannot follow `log` now, or null when it can. */
  refusalOf(log: readonly LoggedEvent[], event: CaseEvent): string | null;
}

export function createCaseFlow(knowledge: Knowledge): CaseFlow {
  const dangerIds = new Set(
    [...knowledge.observations.values()].filter((one) => one.danger).map((one) => one.id),
  );
  const machine = createCaseMachine(dangerIds);
  const [initial] = initialTransition(machine);

  const step = (snapshot: SnapshotFrom<CaseMachine>, event: CaseEvent) => {
    const fault = faultOfEvent(knowledge, snapshot.context, event);
    if (fault) return { ok: false as const, reason: fault };
    const asMachineEvent = machineEvent(event);
    if (!snapshot.can(asMachineEvent)) {
      return {
        ok: false as const,
        reason: `"${event.kind}" does not fit while the case is in "${String(snapshot.value)}"`,
      };
    }
    const [next] = transition(machine, snapshot, asMachineEvent);
    return { ok: true as const, snapshot: next };
  };

  const replay = (log: readonly LoggedEvent[]): FlowResult => {
    let snapshot = initial;
    for (const { seq, event } of eventsInForce(log)) {
      const result = step(snapshot, eventToday(knowledge, event));
      if (!result.ok)
        return { ok: false, refusedSeq: seq, reason: result.reason, moment: momentOf(snapshot) };
      snapshot = result.snapshot;
    }
    return { ok: true, moment: momentOf(snapshot) };
  };

  const refusalOf = (log: readonly LoggedEvent[], event: CaseEvent): string | null => {
    if (event.kind === 'undone') return hasUndoable(log) ? null : 'there is nothing to take back';
    let snapshot = initial;
    for (const logged of eventsInForce(log)) {
      const result = step(snapshot, eventToday(knowledge, logged.event));
      if (!result.ok) return `event ${logged.seq} no longer fits: ${result.reason}`;
      snapshot = result.snapshot;
    }
    const result = step(snapshot, event);
    return result.ok ? null : result.reason;
  };

  return { replay, refusalOf };
}

function momentOf(snapshot: SnapshotFrom<CaseMachine>): CaseMoment {
  return { state: snapshot.value as CaseMoment['state'], context: snapshot.context };
}
