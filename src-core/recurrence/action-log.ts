import type { ActionEvent, ActionPlan, LaterActionEvent } from '../contract/action-view.ts';
import { dayAfter } from './shop-calendar.ts';
import { faults } from '../words/en/faults.ts';
import type { Message } from '../words/message.ts';

export interface LoggedActionEvent {
  readonly seq: number;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly event: ActionEvent;
}

export type ActionState = 'open' | 'snoozed' | 'dismissed' | 'done';

/** What an action's log adds up to. */
export interface ActionMoment {
  readonly plan: ActionPlan;
  readonly openedAt: string;
  readonly state: ActionState;
  readonly snoozedUntil: string | null;
  readonly dismissedBecause: string | null;
  readonly doneOn: string | null;
}

/** Folds a log, oldest first; null where it does not begin with what is to be done. One that was put off until `today` or earlier is open again. */
export function actionFrom(log: readonly LoggedActionEvent[], today: string): ActionMoment | null {
  const [first] = log;
  if (first?.event.kind !== 'opened') return null;
  const open = { state: 'open', snoozedUntil: null, dismissedBecause: null, doneOn: null } as const;
  let moment: ActionMoment = { plan: first.event.plan, openedAt: first.at, ...open };
  for (const { event } of log.slice(1)) moment = after(moment, event);
  return moment.state === 'snoozed' && moment.snoozedUntil !== null && moment.snoozedUntil <= today
    ? { ...moment, ...open }
    : moment;

  function after(now: ActionMoment, event: ActionEvent): ActionMoment {
    switch (event.kind) {
      case 'opened':
        return now;
      case 'assigned':
        return { ...now, plan: { ...now.plan, owner: event.owner, dueOn: event.dueOn } };
      case 'snoozed':
        return { ...now, ...open, state: 'snoozed', snoozedUntil: event.until };
      case 'dismissed':
        return { ...now, ...open, state: 'dismissed', dismissedBecause: event.reason };
      case 'done':
        return { ...now, ...open, state: 'done', doneOn: event.on };
      case 'reopened':
        return { ...now, ...open };
    }
  }
}

/** Why an event does not fit an action as it stands, or null. */
export function faultOfActionEvent(
  { state }: Pick<ActionMoment, 'state'>,
  event: LaterActionEvent,
  today: string,
): Message | null {
  if (event.kind === 'reopened') return state === 'open' ? faults.openAlready() : null;
  if (state === 'done') return faults.actionDone();
  if (state === 'dismissed') return faults.actionDismissed();
  if (event.kind === 'done' && event.on > today) return faults.dayNotCome();
  if (event.kind === 'snoozed' && event.until <= today) return faults.putOffUntilLater();
  return null;
}

/** How near an open action's day is. */
export function dueOf(
  { state, plan }: Pick<ActionMoment, 'state' | 'plan'>,
  today: string,
): 'overdue' | 'this-week' | 'later' | null {
  if (state !== 'open' || plan.dueOn === null) return null;
  if (plan.dueOn < today) return 'overdue';
  return plan.dueOn <= dayAfter(today, 6) ? 'this-week' : 'later';
}
