import { valueTexts } from '../words/en/values.ts';
import type { CaseView } from '../contract/case-view.ts';
import type { ShopCosts } from '../contract/shop-costs.ts';
import { moneyPerWorkMinute } from './counted-costs.ts';
import { cautionsOf } from '../knowledge/cautions.ts';
import { CAUSE_NOT_IN_GUIDE } from '../knowledge/compile.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseStep } from './case-step.ts';
import { DRYING_WAIT } from '../moisture/index.ts';
import { dangerSignsIn } from './danger-signs.ts';
import { flowUnder } from './drying-for-case.ts';
import { eventWords } from './event-words.ts';
import { fillText } from './filled-text.ts';
import { hasUndoable, undoneSeqs, type LoggedEvent } from './logged-event.ts';
import { questionAbout, questionOf } from './question-view.ts';
import { CONFLICT_FLAG_BITS } from './reasons.ts';
import { runningTimer } from './running-timer.ts';
import { remedyCostMinutes } from './step-cost.ts';
import {
  causeLabel,
  conditionValueLabel,
  confirmedCauseLabel,
  observationLabel,
  remedyLabel,
  valueLabel,
} from './wording.ts';

/** Candidates shown: the rest are too unlikely to read. */
const SHOWN_CANDIDATES = 12;
const SHOWN_CHECKS = 40;
const SHOWN_REMEDIES = 12;
/** Causes suggested at closing. */
const SUGGESTED_PROBABILITY = 0.3;

/** Everything a case view is made of; the builder only arranges. */
export interface CaseViewParts {
  readonly caseId: string;
  readonly number: number;
  readonly printer: CaseView['printer'];
  readonly spool: CaseView['spool'];
  readonly engineVersion: string;
  readonly knowledge: Knowledge;
  readonly log: readonly LoggedEvent[];
  /** What the log adds up to. */
  readonly step: CaseStep;
  readonly costs: ShopCosts | null;
  /** ISO 8601 time of looking. */
  readonly now: string;
}

/** Arranges what a screen needs to draw one case. */
export function buildCaseView(parts: CaseViewParts): CaseView {
  const { knowledge, log, step } = parts;
  const { reasoning } = step;
  const { context, state } = step.moment;
  const previous = step.previous && new Map(step.previous);
  const noPlaceFor = new Map(step.noPlaceFor.map(({ seq, reason }) => [seq, reason]));
  const intake = context.intake;
  if (!intake || state === 'intake') throw new Error(`case ${parts.caseId} has not been opened`);
  const first = log[0];
  const openedAt = first?.at ?? parts.now;
  const undone = undoneSeqs(log);
  const questionId = questionOf(step.moment, reasoning);
  const likely = reasoning.candidates
    .filter((one) => one.probability >= SUGGESTED_PROBABILITY)
    .map((one) => one.cause);
  const suggestedCauses =
    likely.length > 0 ? likely : reasoning.candidates.slice(0, 1).map((one) => one.cause);

  return {
    caseId: parts.caseId,
    number: parts.number,
    revision: log.length,
    state,
    mergedInto: context.mergedInto,
    openedAt,
    openedBy: intake.openedBy,
    printer: parts.printer,
    spool: parts.spool,
    profile: intake.profile ?? null,
    files: [...(intake.files ?? [])],
    tags: [...context.tags],
    complaints: intake.complaints.map(({ observation, value }) => ({
      observation,
      label: observationLabel(knowledge, observation),
      value: valueLabel(knowledge, observation, value),
    })),
    words: intake.words,
    flowMm3PerS: flowUnder(knowledge, context.conditions),
    conditions: Object.entries(context.conditions).map(([id, value]) => ({
      id,
      label: knowledge.conditions.get(id)?.label ?? id,
      value,
      valueLabel: conditionValueLabel(knowledge, id, value),
      // Changed by hand since, it is no longer what was worked out.
      because: context.intake?.conditions[id] === value ? (context.intake.because?.[id] ?? null) : null,
    })),
    setAside: reasoning.setAside.map((id) => observationLabel(knowledge, id)),
    candidates: reasoning.candidates.map((candidate) => ({
      cause: candidate.cause,
      label: causeLabel(knowledge, candidate.cause),
      family: knowledge.causes.get(candidate.cause)?.family ?? 'unknown',
      probability: candidate.probability,
      previousProbability: previous?.get(candidate.cause) ?? null,
      because: candidate.because.map(({ finding, decibans }) => reasonView(parts, finding, decibans)),
    })),
    mainComplaint: reasoning.mainComplaint,
    background: reasoning.background.map(({ cause, probability }) => ({
      cause,
      label: causeLabel(knowledge, cause),
      probability,
    })),
    stopped: stoppedView(parts),
    conflict: {
      bits: reasoning.conflict.bits,
      isFlagged: reasoning.conflict.bits > CONFLICT_FLAG_BITS,
      suspect:
        reasoning.conflict.suspect === null
          ? null
          : {
              finding: reasoning.conflict.suspect,
              label: observationLabel(knowledge, reasoning.conflict.suspect),
            },
    },
    next: nextView(parts),
    question:
      questionId === null
        ? null
        : questionAbout(knowledge, questionId, context.conditions, context.findings[questionId] ?? null),
    otherChecks: reasoning.checks
      .filter((check) => check.observation !== questionId)
      .slice(0, SHOWN_CHECKS)
      .map(({ observation, minutes, netValueOfInformationMinutes }) => ({
        observation,
        label: observationLabel(knowledge, observation),
        minutes,
        netValueOfInformationMinutes,
      })),
    remedies: reasoning.remedies.slice(0, SHOWN_REMEDIES).flatMap((offer) => {
      const remedy = knowledge.remedies.get(offer.remedy);
      if (!remedy) return [];
      return [
        {
          id: offer.remedy,
          label: remedy.label,
          repairProbability: offer.repairProbability,
          minutesHandsOn: remedy.minutes.handsOn,
          minutesWaiting: remedy.minutes.waiting,
          price: parts.costs && remedyCostMinutes(remedy, parts.costs) * moneyPerWorkMinute(parts.costs),
          removes: remedy.removes.map(({ cause }) => ({ cause, label: causeLabel(knowledge, cause) })),
          wasTried: context.tried.findLast((one) => one.remedy === offer.remedy)?.outcome ?? null,
        },
      ];
    }),
    remedy: remedyView(parts),
    timer: context.remedy && runningTimer(log),
    money: parts.costs && {
      currency: parts.costs.currency,
      perWorkMinute: moneyPerWorkMinute(parts.costs),
    },
    suggestedClosing: {
      causes: suggestedCauses,
      practices: suggestedCauses
        .flatMap((cause) => knowledge.causes.get(cause)?.practices ?? [])
        .filter((id, index, all) => all.indexOf(id) === index)
        .flatMap((id) => {
          const practice = knowledge.practices.get(id);
          return practice ? [{ id, label: practice.label }] : [];
        }),
      minutesSinceOpened: Math.max(0, Math.round((Date.parse(parts.now) - Date.parse(openedAt)) / 60_000)),
    },
    closing: closingView(parts),
    trail: log
      .filter(({ event }) => event.kind !== 'undone' && event.kind !== 'step-ticked')
      .map(({ seq, at, event, setAside }) => ({
        seq,
        at,
        kind: event.kind,
        text: setAside ?? eventWords(knowledge, event),
        observation: 'observation' in event ? event.observation : null,
        photo: event.kind === 'photographed' ? event.photo : null,
        isUndone: undone.has(seq),
        noPlace: noPlaceFor.get(seq) ?? null,
      })),
    canUndo: context.mergedInto === null && hasUndoable(log),
    dangerSigns: [...knowledge.observations.values()]
      .filter((one) => one.danger)
      .sort((a, b) => (a.dangerRank ?? 99) - (b.dangerRank ?? 99))
      .map((one) => ({ observation: one.id, label: one.label })),
    knowledgeVersion: knowledge.version,
    engineVersion: parts.engineVersion,
    practice: null,
  };
}

/** The most probable, and always the cause that the guide does not know: a list that cannot say "none of these" misleads. */
export function isShownCandidate(cause: string, rank: number): boolean {
  return rank < SHOWN_CANDIDATES || cause === CAUSE_NOT_IN_GUIDE;
}

function reasonView({ knowledge, step: { moment } }: CaseViewParts, finding: string, decibans: number) {
  const value = moment.context.findings[finding];
  return {
    finding,
    label: observationLabel(knowledge, finding),
    value: value === undefined ? '' : valueLabel(knowledge, finding, value),
    decibans,
  };
}

function stoppedView({ knowledge, step: { moment } }: CaseViewParts): CaseView['stopped'] {
  const signs = dangerSignsIn(knowledge, moment.context.findings);
  if (signs.length === 0) return null;
  return {
    signs: signs.map((id) => observationLabel(knowledge, id)),
    takenOverBy: moment.context.takenOverBy,
  };
}

function nextView({ knowledge, step: { reasoning } }: CaseViewParts): CaseView['next'] {
  const { kind, id, minutes, expectedCostOfRepair } = reasoning.next;
  const label =
    kind === 'check'
      ? observationLabel(knowledge, id)
      : kind === 'remedy'
        ? remedyLabel(knowledge, id)
        : valueTexts.m.handOver();
  return { kind, id, label, minutes, expectedCostOfRepair };
}

function remedyView({ knowledge, step }: CaseViewParts): CaseView['remedy'] {
  const { reasoning, workedOut } = step;
  const { context } = step.moment;
  const remedy = context.remedy ? knowledge.remedies.get(context.remedy.id) : undefined;
  if (!remedy || !context.remedy) return null;
  const done = context.remedy.doneSteps;
  const fill = (text: string) => fillText(text, knowledge, context.conditions, workedOut);
  const wait = workedOut[DRYING_WAIT];
  return {
    id: remedy.id,
    label: remedy.label,
    repairProbability: reasoning.remedies.find((one) => one.remedy === remedy.id)?.repairProbability ?? 0,
    minutesHandsOn: remedy.minutes.handsOn,
    minutesWaiting: typeof wait === 'number' ? wait : remedy.minutes.waiting,
    isWorkedOut: Object.keys(workedOut).length > 0,
    parts: remedy.parts,
    tools: remedy.tools,
    steps: remedy.steps.map((step, index) => ({
      text: fill(step.do),
      cautions: cautionsOf(knowledge, step.cautions),
      isDone: done.includes(index),
    })),
    verify: fill(remedy.verify),
    stopAndCall: fill(remedy.stopAndCall),
    risk: remedy.risk?.of ?? null,
  };
}

function closingView({ knowledge, step: { moment } }: CaseViewParts): CaseView['closing'] {
  const closing = moment.context.closing;
  if (!closing) return null;
  const practice = closing.practice === null ? undefined : knowledge.practices.get(closing.practice);
  return {
    causes: closing.causes.map((one) => ({
      cause: 'cause' in one ? one.cause : null,
      label: confirmedCauseLabel(knowledge, one),
    })),
    practice: practice ? { id: practice.id, label: practice.label, better: practice.better } : null,
    minutesLost: closing.minutesLost,
    gramsScrapped: closing.gramsScrapped,
    note: closing.note,
  };
}
