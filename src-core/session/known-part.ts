import type { CaseEvent, Intake } from '../contract/case-event.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { unknownId } from '../knowledge/unknown-id.ts';
import { faultOfCondition, faultOfFinding } from './finding-level.ts';
import { faults } from '../words/en/faults.ts';
import type { Message } from '../words/message.ts';

/**
 * The part of an entry of an earlier guide that today's can still use. An opening always stays one: a case is never lost
 * because a word of its complaint is gone from the guide. `lost` says what was left out, null where nothing was.
 */
export function knownPartOf(
  knowledge: Knowledge,
  event: CaseEvent,
): { readonly known: CaseEvent; readonly lost: Message | null } {
  const lost: Message[] = [];
  const isKnown = (fault: Message | null) => {
    if (fault !== null) lost.push(fault);
    return fault === null;
  };
  const result = (known: CaseEvent) => ({
    known,
    lost: lost.length < 2 ? (lost[0] ?? null) : faults.several({ all: { series: lost } }),
  });
  const isFinding = ({ observation, value }: Intake['complaints'][number]) =>
    isKnown(faultOfFinding(knowledge, observation, value));
  if (event.kind === 'danger-answered') {
    // A sign of danger stays one, whatever it was called: nothing is taken out.
    event.present.forEach((id) => isKnown(unknownId('observation', knowledge.observations, id)));
    return result(event);
  }
  if (event.kind === 'closed')
    return result({
      ...event,
      // What was confirmed is still what was confirmed: under its own id, in words.
      causes: event.causes.map((one) =>
        'cause' in one && !isKnown(unknownId('cause', knowledge.causes, one.cause))
          ? { named: one.cause }
          : one,
      ),
      practice:
        event.practice !== null && isKnown(unknownId('practice', knowledge.practices, event.practice))
          ? event.practice
          : null,
    });
  if (event.kind !== 'opened') return result(event);
  const { intake } = event;
  return result({
    ...event,
    intake: {
      ...intake,
      complaints: intake.complaints.filter(isFinding),
      ...(intake.measured && { measured: intake.measured.filter(isFinding) }),
      ...(intake.tried && {
        tried: intake.tried.filter(({ remedy }) => isKnown(unknownId('remedy', knowledge.remedies, remedy))),
      }),
      conditions: Object.fromEntries(
        Object.entries(intake.conditions).filter(([id, value]) =>
          isKnown(faultOfCondition(knowledge, id, value)),
        ),
      ),
    },
  });
}
