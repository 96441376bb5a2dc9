import { measuresDifference, quantityOf } from './quantity.ts';
import type { CaseEvent, CouldNotReason, Outcome, TriedReach, TriedWith } from '../contract/case-event.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { caseLogTexts } from '../words/en/case-log.ts';
import { inSentence } from '../words/in-sentence.ts';
import { type Message, type MessageValue } from '../words/message.ts';
import { causeLabel, conditionValueLabel, observationLabel, remedyLabel } from './wording.ts';

const { m } = caseLogTexts;

/** At the head of a line, and within one. */
const OUTCOMES: Readonly<Record<Outcome, { readonly first: Message; readonly then: Message }>> = {
  cured: { first: m.cured(), then: m.curedThen() },
  better: { first: m.better(), then: m.betterThen() },
  partly: { first: m.inPart(), then: m.inPartThen() },
  'came-back': { first: m.cameBack(), then: m.cameBackThen() },
  'not-cured': { first: m.notCured(), then: m.notCuredThen() },
  worse: { first: m.worse(), then: m.worseThen() },
};

const REASONS: Readonly<Record<CouldNotReason, Message>> = {
  'no-part': m.reasonNoPart(),
  'no-tool': m.reasonNoTool(),
  'not-allowed': m.reasonNotAllowed(),
  'not-reachable': m.reasonNotReachable(),
  'no-time': m.reasonNoTime(),
  other: m.reasonOther(),
};

const WITH: Readonly<Record<TriedWith, Message>> = {
  'same-kind': m.withSameKind(),
  'another-kind': m.withAnotherKind(),
  'from-a-good-machine': m.withGoodMachine(),
};

const REACH: Readonly<Record<TriedReach, Message>> = {
  'one-small-step': m.oneSmallStep(),
  'whole-range': m.wholeRange(),
};

/** Values that mean the same of any observation. */
const VALUES: Readonly<Record<string, Message>> = {
  present: m.present(),
  absent: m.absent(),
  probably: m.probably(),
  'probably-not': m.probablyNot(),
  sometimes: m.sometimes(),
};

/** One entry of a case for the trail, the timeline and reports. Unknown ids (an older guide's) show as they are. */
export function eventWords(knowledge: Knowledge, event: CaseEvent): Message {
  const observation = 'observation' in event ? observationLabel(knowledge, event.observation) : '';
  switch (event.kind) {
    case 'opened':
      return openedWords(knowledge, event.intake);
    case 'danger-answered':
      return event.present.length === 0
        ? m.noSignOfDanger()
        : m.danger({ signs: event.present.map((id) => observationLabel(knowledge, id)) });
    case 'made-safe':
      return m.madeSafe();
    case 'taken-over':
      return m.takenOver({ by: event.by });
    case 'answered':
      return findingWords(knowledge, event.observation, event.value);
    case 'could-not-tell':
      return m.couldNotTell({ observation });
    case 'skipped':
      return m.skipped({ observation });
    case 'jumped':
      return m.askedToCheck({ observation });
    case 'condition-set': {
      const condition = knowledge.conditions.get(event.condition)?.label ?? event.condition;
      return event.value === null
        ? m.conditionNotKnown({ condition })
        : m.conditionSet({ condition, value: conditionValueLabel(knowledge, event.condition, event.value) });
    }
    case 'verdict-asked':
      return m.askedWhatToDo();
    case 'checking-resumed':
      return m.backToChecking();
    case 'remedy-chosen':
      return m.remedy({ remedy: remedyLabel(knowledge, event.remedy) });
    case 'step-ticked':
      return event.isDone ? m.stepDone({ step: event.step + 1 }) : m.stepNotDone({ step: event.step + 1 });
    case 'timer-set':
      return m.timerSet({ wait: waitWords(event.minutes) });
    case 'timer-stopped':
      return m.timerStopped();
    case 'remedy-left':
      return m.remedyLeft();
    case 'could-not-be-done':
      return event.note
        ? m.couldNotBeDoneNoted({ reason: REASONS[event.reason], note: event.note })
        : m.couldNotBeDone({ reason: REASONS[event.reason] });
    case 'remedy-done':
      return m.remedyCarriedOut();
    case 'verified':
      return outcomeWords(event, 'first');
    case 'closed':
      return m.closed({
        causes: event.causes.map((one) => ('cause' in one ? causeLabel(knowledge, one.cause) : one.named)),
      });
    case 'parked':
      return restingWords(m.parked(), event);
    case 'handed-over':
      return restingWords(event.to === undefined ? m.handedToLead() : m.handedTo({ to: event.to }), event);
    case 'resumed':
      return m.reopened();
    case 'noted':
      return m.note({ note: event.text });
    case 'photographed':
      return event.note ? m.photoOf({ note: event.note }) : m.photo();
    case 'profile-set':
      return event.profile === null ? m.profileNotKnown() : m.profile({ profile: event.profile });
    case 'reassigned':
      return m.putRight({
        what: [
          ...(event.printer === undefined
            ? []
            : [event.printer ? m.printerPut({ label: event.printer.label }) : m.printerNotKnown()]),
          ...(event.spool === undefined
            ? []
            : [event.spool ? m.spoolPut({ label: event.spool.label }) : m.spoolNotKnown()]),
        ],
      });
    case 'tagged':
      if (event.off.length === 0) return m.tagPut({ tags: event.on });
      if (event.on.length === 0) return m.tagTakenOff({ tags: event.off });
      return m.tagsChanged({ off: event.off, on: event.on });
    case 'merged':
      return m.mergedHere({ number: event.other.number });
    case 'merged-into':
      return m.mergedThere({ number: event.other.number });
    case 'parted':
      return m.parted({ number: event.other.number });
    case 'linked':
      return m.cameFrom({ number: event.other.number });
    case 'unlinked':
      return m.didNotComeFrom({ number: event.other.number });
    case 'undone':
      return m.lastUndone();
  }
}

function openedWords(
  knowledge: Knowledge,
  { complaints, measured, tried }: Extract<CaseEvent, { kind: 'opened' }>['intake'],
): Message {
  return m.opened({
    what: {
      series: [
        ...[...complaints, ...(measured ?? [])].map(({ observation, value }) =>
          findingWords(knowledge, observation, value),
        ),
        ...(tried ?? []).map((one) =>
          m.triedBefore({ remedy: remedyLabel(knowledge, one.remedy), outcome: outcomeWords(one, 'then') }),
        ),
      ],
    },
  });
}

/** How a remedy went, and how it was tried where somebody said: "Not cured, with a part of the same kind". */
function outcomeWords(
  tried: {
    readonly outcome: Outcome;
    readonly with?: TriedWith | undefined;
    readonly reach?: TriedReach | undefined;
  },
  place: 'first' | 'then',
): Message {
  const outcome = OUTCOMES[tried.outcome][place];
  const [how, far] = [tried.with && WITH[tried.with], tried.reach && REACH[tried.reach]];
  if (how && far) return m.outcomeHowFar({ outcome, how, far });
  const one = how ?? far;
  return one ? m.outcomeHow({ outcome, how: one }) : outcome;
}

/** "Parked until 3 Dec 2026, waits for a 0.6 nozzle: end of shift". */
function restingWords(
  what: Message,
  {
    part,
    dueOn,
    note,
  }: { readonly part?: string | undefined; readonly dueOn?: string | undefined; readonly note: string },
): Message {
  const day = dueOn === undefined ? null : { day: dueOn };
  const rests =
    day === null
      ? part === undefined
        ? what
        : m.restsWaiting({ what, part })
      : part === undefined
        ? m.restsUntil({ what, day })
        : m.restsUntilWaiting({ what, day, part });
  return note === '' ? rests : m.restsBecause({ rests, note });
}

function waitWords(minutes: number): Message {
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  if (hours === 0) return m.waitMinutes({ minutes: rest });
  return rest === 0 ? m.waitHours({ hours }) : m.waitHoursMinutes({ hours, minutes: rest });
}

function findingWords(knowledge: Knowledge, id: string, value: string | number): Message {
  return m.answered({
    observation: observationLabel(knowledge, id),
    value: findingValue(knowledge, id, value),
  });
}

/** A finding's value inside a sentence: "present", "slight", "1.62 mm (thin)". */
export function findingValue(knowledge: Knowledge, id: string, value: string | number): MessageValue {
  const entry = knowledge.observations.get(id);
  if (typeof value === 'number') {
    const band = entry?.measure?.bands.find(
      (one) => value >= (one.from ?? -Infinity) && value < (one.below ?? Infinity),
    );
    const quantity = quantityOf(value, entry?.measure?.unit ?? '', measuresDifference(entry?.measure));
    return band ? m.quantityIn({ quantity, band: inSentence(band.label) }) : quantity;
  }
  const named = [...(entry?.grades ?? []), ...(entry?.measure?.bands ?? [])].find((one) => one.id === value);
  return named ? inSentence(named.label) : (VALUES[value] ?? value);
}
