import type { TrainingAction, TrainingScore } from '../contract/training-view.ts';
import { levelsFromCauseAlone } from '../differential/levels-from-cause.ts';
import { quickestTelling, tellingApart } from '../differential/telling-apart.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { rankCauses } from '../session/reason-about.ts';
import { causeLabel, valueLabel } from '../session/wording.ts';
import { inSentence } from '../words/in-sentence.ts';
import { debriefOf } from './debrief.ts';
import { playPlanner, plannerSpread } from './planner-way.ts';
import type { PracticeCase } from './practice-case.ts';
import type { PracticeRun } from './practice-run.ts';
import { confidenceScore } from './proper-score.ts';
import type { SetCase } from './set-case.ts';
import { labelOfAction, resultText, sheetOf } from './step-words.ts';
import { topicsOf } from './topics.ts';

/** What a case is worth: the cause most; time, confidence, cautions and the habit behind it as well. */
const OF = { cause: 40, time: 25, confidence: 15, cautions: 10, practice: 10 } as const;

/** Scores a finished case and tells how it went beside the planner. Takes as long as the planner thinks: seconds. */
export function scoreOf(
  knowledge: Knowledge,
  { practice, difficulty }: SetCase,
  played: PracticeRun,
  named: Extract<TrainingAction, { kind: 'name-cause' }>,
): TrainingScore {
  const causeIds = [...knowledge.causes.keys()];
  const trueCauses = practice.causes.map((index) => causeIds[index] ?? '');
  const planner = playPlanner(knowledge, practice);
  const spread = plannerSpread(knowledge, practice, planner);
  const steps = debriefOf(knowledge, practice, played);
  const isCauseRight = trueCauses.includes(named.cause);
  const probabilityOfNamed =
    rankCauses(knowledge, played.context).find((one) => one.cause === named.cause)?.probability ?? 0;
  const needed = played.steps.filter(({ cautions }) => cautions.length > 0).length;
  const missed = steps.filter(({ missedCautions }) => missedCautions.length > 0).length;
  const isSafe = missed === 0;
  const confidence =
    named.confidence === null
      ? null
      : { stated: named.confidence, score: confidenceScore(named.confidence, isCauseRight) };
  const practiceBehind = practiceOf(knowledge, trueCauses, named.practice);
  // Against the middle of the planner's runs, so that one lucky run is no measure.
  const middle = spread[Math.floor(spread.length / 2)] ?? planner.minutesSpent;
  const timeShare = Math.min(1, middle / Math.max(1, played.minutesSpent));
  const parts = [
    { label: 'The cause', points: isCauseRight ? OF.cause : 0, of: OF.cause },
    { label: 'Time beside the planner’s', points: isCauseRight ? OF.time * timeShare : 0, of: OF.time },
    {
      label: 'How sure you were',
      points: confidence ? (OF.confidence * confidence.score) / 100 : 0,
      of: OF.confidence,
    },
    { label: 'Cautions read first', points: isSafe ? OF.cautions : 0, of: OF.cautions },
    {
      label: 'The habit behind it',
      // A cause without a habit behind it leaves nothing to name.
      points: (practiceBehind ? practiceBehind.isRight : isCauseRight) ? OF.practice : 0,
      of: OF.practice,
    },
  ];
  const parted = steps.findIndex(({ isSame }) => !isSame);
  return {
    trueCauses: trueCauses.map((cause) => ({ cause, label: causeLabel(knowledge, cause) })),
    isCauseRight,
    isPassed: isCauseRight && isSafe,
    probabilityOfNamed,
    minutesSpent: played.minutesSpent,
    checks: countOf(played, 'check'),
    remedies: countOf(played, 'remedy'),
    planner: {
      isCured: planner.isCured,
      minutes: planner.minutesSpent,
      checks: countOf(planner, 'check'),
      spread,
      steps: planner.steps.map((step) => ({
        label: labelOfAction(knowledge, step.action),
        result: resultText(knowledge, step),
        minutes: step.minutes,
        sheet: sheetOf(step.action),
      })),
    },
    confidence,
    practice: practiceBehind,
    cautions: { needed, read: needed - missed },
    difficulty,
    topics: topicsOf(knowledge, trueCauses),
    steps,
    partedAt: parted < 0 ? null : parted,
    points: Math.round(parts.reduce((sum, { points }) => sum + points, 0)),
    parts: parts.map((part) => ({ ...part, points: Math.round(part.points) })),
    remarks: remarksOn(knowledge, practice, played, named.cause, trueCauses, probabilityOfNamed),
  };
}

function countOf({ steps }: PracticeRun, kind: TrainingAction['kind']): number {
  return steps.filter(({ action }) => action.kind === kind).length;
}

/** The habits behind the true causes and whether one of them was named; null where the guide knows none. */
function practiceOf(
  knowledge: Knowledge,
  trueCauses: readonly string[],
  named: string | null,
): TrainingScore['practice'] {
  const right = [...new Set(trueCauses.flatMap((cause) => knowledge.causes.get(cause)?.practices ?? []))];
  if (right.length === 0) return null;
  const labelled = (id: string) => ({ id, label: knowledge.practices.get(id)?.label ?? id });
  return {
    named: named === null ? null : labelled(named),
    isRight: named !== null && right.includes(named),
    right: right.map(labelled),
  };
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
