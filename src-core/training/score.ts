import { trainingTexts } from '../words/en/training.ts';
import type { Message } from '../words/message.ts';
import { findingValue } from '../session/event-words.ts';
import type { TrainingAction, TrainingScore } from '../contract/training-view.ts';
import { levelsFromCauseAlone } from '../differential/levels-from-cause.ts';
import { quickestTelling, tellingApart } from '../differential/telling-apart.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { rankCauses } from '../session/reason-about.ts';
import { causeLabel } from '../session/wording.ts';
import { debriefOf } from './debrief.ts';
import { playPlanner, plannerSpread } from './planner-way.ts';
import type { PracticeCase } from './practice-case.ts';
import type { PracticeRun } from './practice-run.ts';
import { confidenceScore } from './proper-score.ts';
import type { SetCase } from './set-case.ts';
import { labelOfAction, resultText, sheetOf } from './step-words.ts';
import { topicsOf } from './topics.ts';

const { m } = trainingTexts;

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
    { label: m.partCause(), points: isCauseRight ? OF.cause : 0, of: OF.cause },
    { label: m.partTime(), points: isCauseRight ? OF.time * timeShare : 0, of: OF.time },
    {
      label: m.partConfidence(),
      points: confidence ? (OF.confidence * confidence.score) / 100 : 0,
      of: OF.confidence,
    },
    { label: m.partCautions(), points: isSafe ? OF.cautions : 0, of: OF.cautions },
    {
      label: m.partHabit(),
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
): Message[] {
  const remarks: Message[] = [];
  const percent = Math.round(probabilityOfNamed * 100);
  if (trueCauses.includes(named)) {
    remarks.push(
      probabilityOfNamed >= 0.5
        ? m.wellFounded({ cause: causeLabel(knowledge, named), percent })
        : m.oneMoreCheck({ percent }),
    );
  } else {
    remarks.push(m.foundMadeIt({ cause: causeLabel(knowledge, named), percent }));
    const telling = tellingCheck(knowledge, practice, played, named, trueCauses[0] ?? '');
    if (telling) remarks.push(telling);
  }
  if (trueCauses.length > 1) remarks.push(m.twoCauses());
  const wasted = played.steps.filter(
    (step) => step.action.kind === 'remedy' && step.result === 'not-cured',
  ).length;
  if (wasted > 0) remarks.push(m.changedNothing({ count: wasted }));
  return remarks;
}

/** The check left open that tells the named and the true cause apart. */
function tellingCheck(
  knowledge: Knowledge,
  practice: PracticeCase,
  played: PracticeRun,
  named: string,
  truth: string,
): Message | null {
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
  return m.wouldHaveTold({ check: best.label, value: findingValue(knowledge, best.id, value) });
}
