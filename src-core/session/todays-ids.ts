import type { CaseEvent } from '../contract/case-event.ts';
import { today } from '../knowledge/former-ids.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';

type Values = Readonly<Record<string, string | number>>;

/** Conditions, findings and tried remedies with the ids of an earlier guide read as today's; the first said wins. */
export function underTodaysIds<
  T extends {
    readonly conditions: Values;
    readonly findings: Values;
    readonly tried: readonly { readonly remedy: string }[];
  },
>(knowledge: Knowledge, given: T): T {
  const { former } = knowledge;
  return {
    ...given,
    conditions: conditionsToday(knowledge, given.conditions),
    findings: renamed(given.findings, (id) => today(former.observations, id)),
    tried: given.tried.map((one) => ({ ...one, remedy: today(former.remedies, one.remedy) })),
  };
}

/** An event of an earlier guide in today's ids. Nothing else about it changes. */
export function eventToday(knowledge: Knowledge, event: CaseEvent): CaseEvent {
  const { former } = knowledge;
  const observation = (id: string) => today(former.observations, id);
  const found = <T extends { readonly observation: string }>(one: T): T => ({
    ...one,
    observation: observation(one.observation),
  });
  switch (event.kind) {
    case 'opened':
      return {
        ...event,
        intake: {
          ...event.intake,
          conditions: { ...conditionsToday(knowledge, event.intake.conditions) },
          complaints: event.intake.complaints.map(found),
          ...(event.intake.ownExperience && {
            ownExperience: renamed(event.intake.ownExperience, (id) => today(former.causes, id)),
          }),
          ...(event.intake.ownLinks && {
            ownLinks: event.intake.ownLinks.map((one) => ({
              ...found(one),
              cause: today(former.causes, one.cause),
            })),
          }),
          ...(event.intake.measured && { measured: event.intake.measured.map(found) }),
          ...(event.intake.tried && {
            tried: event.intake.tried.map((one) => ({ ...one, remedy: today(former.remedies, one.remedy) })),
          }),
          ...(event.intake.because && {
            because: renamed(event.intake.because, (id) => today(former.conditions, id)),
          }),
        },
      };
    case 'danger-answered':
      return { ...event, present: event.present.map(observation) };
    case 'answered':
    case 'could-not-tell':
    case 'skipped':
    case 'jumped':
      return found(event);
    case 'condition-set': {
      const id = today(former.conditions, event.condition);
      const value = typeof event.value === 'string' ? valueToday(knowledge, id, event.value) : event.value;
      return { ...event, condition: id, value };
    }
    case 'remedy-chosen':
      return { ...event, remedy: today(former.remedies, event.remedy) };
    case 'closed':
      return {
        ...event,
        causes: event.causes.map((one) =>
          'cause' in one ? { cause: today(former.causes, one.cause) } : one,
        ),
        practice: event.practice === null ? null : today(former.practices, event.practice),
      };
    default:
      return event;
  }
}

function conditionsToday(knowledge: Knowledge, conditions: Values): Values {
  const now = renamed(conditions, (id) => today(knowledge.former.conditions, id));
  return Object.fromEntries(
    Object.entries(now).map(([id, value]) => [
      id,
      typeof value === 'string' ? valueToday(knowledge, id, value) : value,
    ]),
  );
}

function valueToday(knowledge: Knowledge, condition: string, value: string): string {
  return knowledge.former.values.get(condition)?.get(value) ?? value;
}

/** Where two former ids are one today, the first said stands. */
function renamed<T>(values: Readonly<Record<string, T>>, idToday: (id: string) => string): Record<string, T> {
  const now: Record<string, T> = {};
  for (const [id, value] of Object.entries(values)) now[idToday(id)] ??= value;
  return now;
}
