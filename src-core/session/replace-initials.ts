import type { ActionEvent } from '../contract/action-view.ts';
import type { CaseEvent } from '../contract/case-event.ts';
import type { MaintenanceEvent } from '../contract/maintenance-view.ts';

/** Stands where a log cannot do without somebody. */
export const SOMEBODY = 'X';

/** Exchanges somebody's initials for others, or takes them out (null). Texts that people wrote are left as they are. */
export interface InitialsChange {
  readonly from: string;
  readonly to: string | null;
}

/** A case's entry with the initials exchanged; the same object where they are not in it. */
export function inCaseEvent(event: CaseEvent, { from, to }: InitialsChange): CaseEvent {
  switch (event.kind) {
    case 'opened':
      return event.intake.openedBy === from ? { ...event, intake: { ...event.intake, openedBy: to } } : event;
    case 'taken-over':
      return event.by === from ? { ...event, by: to ?? SOMEBODY } : event;
    case 'handed-over': {
      if (event.to !== from) return event;
      const { kind, note, part, dueOn } = event;
      return {
        kind,
        note,
        ...(part !== undefined && { part }),
        ...(dueOn !== undefined && { dueOn }),
        ...(to !== null && { to }),
      };
    }
    default:
      return event;
  }
}

/** The same of an action's entry. */
export function inActionEvent(event: ActionEvent, { from, to }: InitialsChange): ActionEvent {
  if (event.kind === 'opened' && event.plan.owner === from)
    return { ...event, plan: { ...event.plan, owner: to } };
  return event.kind === 'assigned' && event.owner === from ? { ...event, owner: to } : event;
}

/** The same of an entry of the maintenance log. */
export function inMaintenanceEvent(event: MaintenanceEvent, { from, to }: InitialsChange): MaintenanceEvent {
  return (event.kind === 'done' || event.kind === 'detailed') && event.by === from
    ? { ...event, by: to }
    : event;
}
