import type { TrainingAction, TrainingRun, TrainingView } from '../contract/training-view.ts';
import { levelsFromCauseAlone } from '../differential/levels-from-cause.ts';
import { quickestTelling, tellingApart } from '../differential/telling-apart.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { levelOfFinding } from '../session/finding-level.ts';
import { rankCauses, reasonAbout, remedyMinutes } from '../session/reason-about.ts';
import {
  causeLabel,
  conditionValueLabel,
  inSentence,
  observationLabel,
  remedyLabel,
  valueLabel,
} from '../session/wording.ts';
import { drawPracticeCase, type PracticeCase } from './practice-case.ts';
import { playPractice, type PracticeRun, type PracticeStep } from './practice-run.ts';

/** The planner gives up on a practice case after this many steps and hands over. */
const PLANNER_STEPS = 25;
const POINTS_FOR_CAUSE = 60;
const POINTS_FOR_TIME = 40;

/** A practice case as the trainee sees it after these actions; scored once a cause is named. */
export function buildTrainingView(knowledge: Knowledge, run: TrainingRun): TrainingView {
  const practice = drawPracticeCase(knowledge, run.seed, run.family);
  const minutesOf = (remedy: string) => remedyMinutes(knowledge, remedy);
  const played = playPractice(knowledge, practice, run.actions, minutesOf);
  const done = new Set(played.steps.map(({ action }) => (action.kind === 'check' ? action.observation : '')));
  const byLabel = (a: { label: string }, b: { label: string }) => a.label.localeCompare(b.label);
  return {
    seed: run.seed,
    story: {
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
    },
    done: played.steps.map((step) => ({
      kind: step.action.kind,
      id: idOf(step.action),
      label: labelOf(knowledge, step.action),
      result: resultText(knowledge, step),
      minutes: step.minutes,
      value: step.action.kind === 'check' ? step.result : null,
    })),
    minutesSpent: played.minutesSpent,
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
      }))
      .sort(byLabel),
    remedies: [...knowledge.remedies.values()]
      .map(({ id, label, family }) => ({ id, label, family, minutes: minutesOf(id) }))
      .sort(byLabel),
    causes: [...knowledge.causes.values()]
      .map(({ id, label, family }) => ({ id, label, family }))
      .sort(byLabel),
    isOver: played.namedCause !== null,
    score: played.namedCause === null ? null : scoreOf(knowledge, practice, played, played.namedCause),
  };
}

function scoreOf(
  knowledge: Knowledge,
  practice: PracticeCase,
  played: PracticeRun,
  named: string,
): TrainingView['score'] {
  const causeIds = [...knowledge.causes.keys()];
  const trueCauses = practice.causes.map((index) => causeIds[index] ?? '');
  const planner = playPlanner(knowledge, practice);
  const isCauseRight = trueCauses.includes(named);
  const probabilityOfNamed =
    rankCauses(knowledge, played.context).find((one) => one.cause === named)?.probability ?? 0;
  const share = Math.min(1, planner.minutesSpent / Math.max(1, played.minutesSpent));
  const points = isCauseRight ? POINTS_FOR_CAUSE + Math.round(POINTS_FOR_TIME * share) : 0;
  return {
    trueCauses: trueCauses.map((cause) => ({ cause, label: causeLabel(knowledge, cause) })),
    isCauseRight,
    probabilityOfNamed,
    minutesSpent: played.minutesSpent,
    plannerMinutes: planner.minutesSpent,
    plannerSteps: planner.steps.map((step) => ({
      label: labelOf(knowledge, step.action),
      result: resultText(knowledge, step),
      minutes: step.minutes,
    })),
    points,
    remarks: remarksOn(knowledge, practice, played, named, trueCauses, probabilityOfNamed),
  };
}

/** The guide's own way through the same case: its next step, again and again, until the complaint is gone. */
function playPlanner(knowledge: Knowledge, practice: PracticeCase): PracticeRun {
  const actions: TrainingAction[] = [];
  const minutesOf = (remedy: string) => remedyMinutes(knowledge, remedy);
  for (let step = 0; step < PLANNER_STEPS; step++) {
    const played = playPractice(knowledge, practice, actions, minutesOf);
    if (played.isCured) return played;
    const { next } = reasonAbout(knowledge, played.context);
    if (next.kind === 'check') actions.push({ kind: 'check', observation: next.id });
    else if (next.kind === 'remedy') actions.push({ kind: 'remedy', remedy: next.id });
    else break;
  }
  return playPractice(knowledge, practice, actions, minutesOf);
}

function remarksOn(
  knowledge: Knowledge,
  practice: PracticeCase,
  played: PracticeRun,
  named: string,
  trueCauses: readonly string[],
  probabilityOfNamed: number,
): string[] {
  const remarks: string[] = [];
  const percent = Math.round(probabilityOfNamed * 100);
  if (trueCauses.includes(named)) {
    remarks.push(
      probabilityOfNamed >= 0.5
        ? `What you had found made "${causeLabel(knowledge, named)}" ${percent} % likely: a well-founded call.`
        : `Right, but what you had found made it only ${percent} % likely: one more check would have made sure.`,
    );
  } else {
    remarks.push(`What you had found made "${causeLabel(knowledge, named)}" ${percent} % likely.`);
    const telling = tellingCheck(knowledge, practice, played, named, trueCauses[0] ?? '');
    if (telling) remarks.push(telling);
  }
  if (trueCauses.length > 1) remarks.push('Two causes were at work; each brought on part of the complaint.');
  const wasted = played.steps.filter(
    (step) => step.action.kind === 'remedy' && step.result === 'not-cured',
  ).length;
  if (wasted > 0)
    remarks.push(
      `${wasted} ${wasted === 1 ? 'remedy' : 'remedies'} changed nothing: minutes spent, but each says something too.`,
    );
  return remarks;
}

/** The check left open that tells the named and the true cause apart. */
function tellingCheck(
  knowledge: Knowledge,
  practice: PracticeCase,
  played: PracticeRun,
  named: string,
  truth: string,
): string | null {
  const under = (cause: string) =>
    levelsFromCauseAlone(knowledge.graph, knowledge.causeIndex.get(cause) ?? null);
  const [fromNamed, fromTruth] = [under(named), under(truth)];
  const open = [...knowledge.observations.values()].flatMap((observation, index) =>
    played.context.findings[observation.id] === undefined
      ? [{ observation, ifFirst: fromNamed(index), ifSecond: fromTruth(index) }]
      : [],
  );
  const best = quickestTelling(tellingApart(open), ({ check }) => check.minutes)[0]?.observation;
  if (!best) return null;
  const index = knowledge.observationIndex.get(best.id) ?? -1;
  const value = knowledge.levelsOf(best.id)[practice.levelOf(index, new Set(practice.causes))] ?? 'absent';
  return `"${best.label}" would have told them apart: here it is ${inSentence(valueLabel(knowledge, best.id, value))}.`;
}

function idOf(action: TrainingAction): string {
  return action.kind === 'check'
    ? action.observation
    : action.kind === 'remedy'
      ? action.remedy
      : action.cause;
}

function labelOf(knowledge: Knowledge, action: TrainingAction): string {
  if (action.kind === 'check') return observationLabel(knowledge, action.observation);
  return action.kind === 'remedy'
    ? remedyLabel(knowledge, action.remedy)
    : causeLabel(knowledge, action.cause);
}

function resultText(knowledge: Knowledge, { action, result }: PracticeStep): string {
  if (action.kind === 'check') {
    const level = levelOfFinding(knowledge, action.observation, result);
    return level === 0 && result === 'absent' ? 'Absent' : valueLabel(knowledge, action.observation, result);
  }
  if (action.kind === 'remedy')
    return result === 'cured' ? 'Cured' : result === 'better' ? 'Better, not cured' : 'Not cured';
  return '';
}
