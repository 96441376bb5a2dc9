import { inSentence } from '../words/in-sentence.ts';
import type {
  CaseEvent,
  ConfirmedCause,
  CouldNotReason,
  Outcome,
  TriedReach,
  TriedWith,
} from '../contract/case-event.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';

const OUTCOME_WORDS: Readonly<Record<Outcome, string>> = {
  cured: 'Cured',
  better: 'Better, not cured',
  partly: 'Helped in part',
  'came-back': 'Came back after a while',
  'not-cured': 'Not cured',
  worse: 'Worse',
};

const COULD_NOT_WORDS: Readonly<Record<CouldNotReason, string>> = {
  'no-part': 'the part is not here',
  'no-tool': 'the tool is not here',
  'not-allowed': 'not allowed to',
  'not-reachable': 'cannot get at it',
  'no-time': 'no time now',
  other: 'another reason',
};

const WITH_WORDS: Readonly<Record<TriedWith, string>> = {
  'same-kind': 'with a part of the same kind',
  'another-kind': 'with a part of another kind',
  'from-a-good-machine': 'with a part from a good machine',
};

const REACH_WORDS: Readonly<Record<TriedReach, string>> = {
  'one-small-step': 'one small step',
  'whole-range': 'the whole range',
};

/** How a remedy went, and how it was tried where somebody said: "Not cured, with a part of the same kind". */
function outcomeText(tried: {
  readonly outcome: Outcome;
  readonly with?: TriedWith | undefined;
  readonly reach?: TriedReach | undefined;
}): string {
  return [
    OUTCOME_WORDS[tried.outcome],
    ...(tried.with ? [WITH_WORDS[tried.with]] : []),
    ...(tried.reach ? [REACH_WORDS[tried.reach]] : []),
  ].join(', ');
}

/** Labels and sentences for what happens in a case. Unknown ids (an older guide's) show as they are. */
export function observationLabel(knowledge: Knowledge, id: string): string {
  return knowledge.observations.get(id)?.label ?? id;
}

export function causeLabel(knowledge: Knowledge, id: string): string {
  return knowledge.causes.get(id)?.label ?? id;
}

export function remedyLabel(knowledge: Knowledge, id: string): string {
  return knowledge.remedies.get(id)?.label ?? id;
}

/** A finding's value as people say it: "Present", "Slight", "1.62 mm (thin)". */
export function valueLabel(knowledge: Knowledge, observation: string, value: string | number): string {
  const entry = knowledge.observations.get(observation);
  if (typeof value === 'number') {
    const band = entry?.measure?.bands.find(
      (one) => value >= (one.from ?? -Infinity) && value < (one.below ?? Infinity),
    );
    return `${value} ${entry?.measure?.unit ?? ''}${band ? ` (${inSentence(band.label)})` : ''}`.trim();
  }
  const named = [...(entry?.grades ?? []), ...(entry?.measure?.bands ?? [])].find((one) => one.id === value);
  if (named) return named.label;
  if (value === 'present') return 'Present';
  return value === 'absent' ? 'Absent' : value;
}

/** A condition's value as people say it: "ABS", "0.8 mm". */
export function conditionValueLabel(knowledge: Knowledge, id: string, value: string | number): string {
  const condition = knowledge.conditions.get(id);
  if (condition?.number) return `${value} ${condition.number.unit}`;
  return condition?.values?.find((one) => one.id === value)?.label ?? String(value);
}

export function confirmedCauseLabel(knowledge: Knowledge, confirmed: ConfirmedCause): string {
  return 'cause' in confirmed ? causeLabel(knowledge, confirmed.cause) : confirmed.named;
}

/** One line for the trail and the timeline. */
export function eventText(knowledge: Knowledge, event: CaseEvent): string {
  switch (event.kind) {
    case 'opened':
      return [
        ...[...event.intake.complaints, ...(event.intake.measured ?? [])].map(({ observation, value }) =>
          findingText(knowledge, observation, value),
        ),
        ...(event.intake.tried ?? []).map(
          (one) => `Tried before: ${remedyLabel(knowledge, one.remedy)}, ${inSentence(outcomeText(one))}`,
        ),
      ].join('; ');
    case 'danger-answered':
      return event.present.length === 0
        ? 'No sign of danger'
        : `Danger: ${event.present.map((id) => observationLabel(knowledge, id)).join(', ')}`;
    case 'made-safe':
      return 'Power off, made safe';
    case 'taken-over':
      return `Qualified person took over: ${event.by}`;
    case 'answered':
      return findingText(knowledge, event.observation, event.value);
    case 'could-not-tell':
      return `${observationLabel(knowledge, event.observation)}: could not tell`;
    case 'skipped':
      return `${observationLabel(knowledge, event.observation)}: skipped`;
    case 'jumped':
      return `Asked to check: ${observationLabel(knowledge, event.observation)}`;
    case 'condition-set': {
      const label = knowledge.conditions.get(event.condition)?.label ?? event.condition;
      return `${label}: ${event.value === null ? 'not known' : conditionValueLabel(knowledge, event.condition, event.value)}`;
    }
    case 'verdict-asked':
      return 'Asked what to do';
    case 'checking-resumed':
      return 'Back to checking';
    case 'remedy-chosen':
      return `Remedy: ${remedyLabel(knowledge, event.remedy)}`;
    case 'step-ticked':
      return `Step ${event.step + 1} ${event.isDone ? 'done' : 'not done'}`;
    case 'remedy-left':
      return 'Remedy left, not carried out';
    case 'could-not-be-done':
      return `Could not be done: ${COULD_NOT_WORDS[event.reason]}${event.note ? ` (${event.note})` : ''}`;
    case 'remedy-done':
      return 'Remedy carried out';
    case 'verified':
      return outcomeText(event);
    case 'closed':
      return `Closed: ${event.causes.map((one) => confirmedCauseLabel(knowledge, one)).join(' and ')}`;
    case 'parked':
      return restingText('Parked', event);
    case 'handed-over':
      return restingText(`Handed to ${event.to ?? 'the lead'}`, event);
    case 'resumed':
      return 'Reopened';
    case 'noted':
      return `Note: ${event.text}`;
    case 'photographed':
      return event.note ? `Photo: ${event.note}` : 'Photo';
    case 'profile-set':
      return `Profile: ${event.profile ?? 'not known'}`;
    case 'reassigned':
      return `Put right: ${[
        ...(event.printer === undefined ? [] : [`printer ${event.printer?.label ?? 'not known'}`]),
        ...(event.spool === undefined ? [] : [`spool ${event.spool?.label ?? 'not known'}`]),
      ].join(', ')}`;
    case 'tagged':
      return [
        ...(event.off.length > 0 ? [`Tag taken off: ${event.off.join(', ')}`] : []),
        ...(event.on.length > 0 ? [`Tag: ${event.on.join(', ')}`] : []),
      ].join('; ');
    case 'merged':
      return `Case ${event.other.number} was the same trouble: merged into this one`;
    case 'merged-into':
      return `The same trouble as case ${event.other.number}: merged into it`;
    case 'parted':
      return `Not the same as case ${event.other.number} after all: two cases again`;
    case 'linked':
      return `Came from case ${event.other.number}`;
    case 'unlinked':
      return `Did not come from case ${event.other.number} after all`;
    case 'undone':
      return 'Last entry undone';
  }
}

/** "Parked until 3 December 2026, waits for a 0.6 nozzle: end of shift". */
function restingText(
  what: string,
  {
    part,
    dueOn,
    note,
  }: { readonly part?: string | undefined; readonly dueOn?: string | undefined; readonly note: string },
): string {
  const until = dueOn === undefined ? '' : ` until ${dueOn}`;
  const waits = part === undefined ? '' : `, waits for ${part}`;
  return `${what}${until}${waits}${note ? `: ${note}` : ''}`;
}

function findingText(knowledge: Knowledge, observation: string, value: string | number): string {
  return `${observationLabel(knowledge, observation)}: ${inSentence(valueLabel(knowledge, observation, value))}`;
}
