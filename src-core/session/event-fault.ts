import type { CaseEvent } from '../contract/case-event.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { unknownId } from '../knowledge/unknown-id.ts';
import type { CaseContext } from './case-machine.ts';
import { faultOfCondition, faultOfFinding } from './finding-level.ts';
import { faults } from '../words/en/faults.ts';
import type { Message } from '../words/message.ts';

/** What is wrong with an event's contents under this guide (unknown id, value out of range), or null. */
export function faultOfEvent(knowledge: Knowledge, context: CaseContext, event: CaseEvent): Message | null {
  switch (event.kind) {
    case 'opened':
      return (
        firstFault([...event.intake.complaints, ...(event.intake.measured ?? [])], ({ observation, value }) =>
          faultOfFinding(knowledge, observation, value),
        ) ??
        firstFault(Object.entries(event.intake.conditions), ([id, value]) =>
          faultOfCondition(knowledge, id, value),
        ) ??
        firstFault(event.intake.tried ?? [], ({ remedy }) => unknownId('remedy', knowledge.remedies, remedy))
      );
    case 'answered':
      return faultOfFinding(knowledge, event.observation, event.value);
    case 'could-not-tell':
    case 'skipped':
    case 'jumped':
      return unknownId('observation', knowledge.observations, event.observation);
    case 'danger-answered':
      return firstFault(event.present, (id) => unknownId('observation', knowledge.observations, id));
    case 'condition-set':
      return event.value === null
        ? unknownId('condition', knowledge.conditions, event.condition)
        : faultOfCondition(knowledge, event.condition, event.value);
    case 'remedy-chosen':
      return unknownId('remedy', knowledge.remedies, event.remedy);
    case 'step-ticked': {
      const steps = context.remedy ? knowledge.remedies.get(context.remedy.id)?.steps.length : undefined;
      return steps !== undefined && event.step >= steps
        ? faults.fewerSteps({ steps, step: event.step + 1 })
        : null;
    }
    case 'closed':
      return (
        firstFault(event.causes, (one) =>
          'cause' in one ? unknownId('cause', knowledge.causes, one.cause) : null,
        ) ?? (event.practice === null ? null : unknownId('practice', knowledge.practices, event.practice))
      );
    case 'made-safe':
    case 'taken-over':
    case 'verdict-asked':
    case 'checking-resumed':
    case 'timer-set':
    case 'timer-stopped':
    case 'remedy-left':
    case 'could-not-be-done':
    case 'remedy-done':
    case 'verified':
    case 'parked':
    case 'handed-over':
    case 'resumed':
    case 'noted':
    case 'photographed':
    case 'profile-set':
    case 'reassigned':
    case 'tagged':
    case 'merged':
    case 'merged-into':
    case 'parted':
    case 'linked':
    case 'unlinked':
    case 'undone':
      return null;
  }
}

function firstFault<T>(entries: readonly T[], faultOf: (entry: T) => Message | null): Message | null {
  for (const entry of entries) {
    const fault = faultOf(entry);
    if (fault) return fault;
  }
  return null;
}
