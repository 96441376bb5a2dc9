import {
  trainingRunSchema,
  type RunAction,
  type TrainingAction,
  type TrainingRun,
  type TrainingRunInput,
  type TrainingView,
} from '../contract/training-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseContext } from '../session/case-context.ts';
import { rankCauses, remedyMinutes } from '../session/reason-about.ts';
import { causeLabel, conditionValueLabel, observationLabel, valueLabel } from '../session/wording.ts';
import { cautionsOfRemedy, playPractice } from './practice-run.ts';
import { playScreens, practiceCaseView } from './practice-screens.ts';
import { scoreOf } from './score.ts';
import { setCase } from './set-case.ts';
import type { WrittenCase } from './written-case.ts';
import { idOfAction, labelOfAction, resultText } from './step-words.ts';

/** Causes that the odds name. */
const MOST_ODDS = 6;

/**
 * A practice case as the trainee sees it after these actions; scored once a cause is named. `own` is a case of the shop's,
 * where the run is about one.
 */
export function buildTrainingView(
  knowledge: Knowledge,
  input: TrainingRunInput,
  own: WrittenCase | null = null,
): TrainingView {
  const run = trainingRunSchema.parse(input);
  const { set, played, desk } = play(knowledge, run, own);
  const { practice, written } = set;
  const minutesOf = (remedy: string) => remedyMinutes(knowledge, remedy);
  const done = new Set(played.steps.map(({ action }) => (action.kind === 'check' ? action.observation : '')));
  const byLabel = (a: { label: string }, b: { label: string }) => a.label.localeCompare(b.label);
  return {
    seed: run.seed,
    title: written?.title ?? null,
    story: {
      told: written && { text: written.story, printer: written.printer, spool: written.spool },
      conditions: Object.entries(practice.conditions).map(([id, value]) => ({
        id,
        label: knowledge.conditions.get(id)?.label ?? id,
        valueLabel: conditionValueLabel(knowledge, id, value),
      })),
      complaints: played.complaints.map(({ observation, value }) => ({
        observation,
        label: observationLabel(knowledge, observation),
        value: valueLabel(knowledge, observation, value),
      })),
      photos: [],
    },
    done: played.steps.map((step) => ({
      kind: step.action.kind,
      id: idOfAction(step.action),
      label: labelOfAction(knowledge, step.action),
      result: resultText(knowledge, step),
      minutes: step.minutes,
      value: step.action.kind === 'check' ? step.result : null,
    })),
    minutesSpent: played.minutesSpent,
    isCured: played.isCured,
    checks: [...knowledge.observations.values()]
      .filter(
        (one) => !done.has(one.id) && !played.complaints.some(({ observation }) => observation === one.id),
      )
      .map((one) => ({
        observation: one.id,
        label: one.label,
        place: one.place,
        kind: one.kind,
        minutes: one.check.minutes,
        how: one.check.how,
        cautions: one.check.cautions,
      }))
      .sort(byLabel),
    remedies: [...knowledge.remedies.values()]
      .map(({ id, label, family }) => ({
        id,
        label,
        family,
        minutes: minutesOf(id),
        cautions: cautionsOfRemedy(knowledge, id),
      }))
      .sort(byLabel),
    cautions: [...knowledge.cautions.values()].map(({ id, label, text }) => ({ id, label, text })),
    causes: [...knowledge.causes.values()]
      .map(({ id, label, family }) => ({ id, label, family }))
      .sort(byLabel),
    practices: [...knowledge.practices.values()].map(({ id, label }) => ({ id, label })).sort(byLabel),
    odds:
      run.withOdds && !run.asCase
        ? rankCauses(knowledge, played.context)
            .slice(0, MOST_ODDS)
            .map(({ cause, probability }) => ({ cause, label: causeLabel(knowledge, cause), probability }))
        : null,
    case: desk && practiceCaseView(knowledge, set, played, desk, run.withOdds),
    refusal: desk?.refusal ?? null,
    isOver: played.named !== null,
    score: played.named === null ? null : scoreOf(knowledge, set, played, played.named),
  };
}

/** What is known in a practice case that is worked in the screens of a case: for the questions that a case answers. */
export function practiceContext(
  knowledge: Knowledge,
  input: TrainingRunInput,
  own: WrittenCase | null = null,
): CaseContext {
  const { desk, played } = play(knowledge, trainingRunSchema.parse(input), own);
  return desk?.moment.context ?? played.context;
}

function play(knowledge: Knowledge, run: TrainingRun, own: WrittenCase | null) {
  const set = setCase(knowledge, run, own);
  const played = playPractice(knowledge, set.practice, run.actions.filter(isScored), (remedy) =>
    remedyMinutes(knowledge, remedy),
  );
  return { set, played, desk: run.asCase ? playScreens(knowledge, set, run.actions, played) : null };
}

function isScored(action: RunAction): action is TrainingAction {
  return action.kind !== 'event';
}
