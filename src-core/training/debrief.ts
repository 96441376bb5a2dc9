import type { DebriefStep } from '../contract/training-view.ts';
import { cautionsOf } from '../knowledge/cautions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { remedyMinutes } from '../session/reason-about.ts';
import { observationLabel, remedyLabel } from '../session/wording.ts';
import { thoughtOn, type Thought } from './planner-way.ts';
import type { PracticeCase } from './practice-case.ts';
import { playPractice, type PracticeRun } from './practice-run.ts';
import { labelOfAction, resultText, sheetOf } from './step-words.ts';

/** Each step of a trainee beside the planner's on the same findings, with the minutes that the planner's was expected to save. */
export function debriefOf(knowledge: Knowledge, practice: PracticeCase, played: PracticeRun): DebriefStep[] {
  const actions = played.steps.map(({ action }) => action);
  let isCured = false;
  return played.steps.flatMap((step, index): DebriefStep[] => {
    if (step.action.kind === 'name-cause') return [];
    const { action } = step;
    const before = playPractice(knowledge, practice, actions.slice(0, index), (id) =>
      remedyMinutes(knowledge, id),
    );
    const own = {
      label: labelOfAction(knowledge, action),
      result: resultText(knowledge, step),
      minutes: step.minutes,
      sheet: sheetOf(action),
      missedCautions: action.readCautions ? [] : cautionsOf(knowledge, step.cautions),
    };
    if (isCured) return [{ ...own, planner: null, isSame: false, costMinutes: step.minutes }];
    isCured = step.result === 'cured';
    const thought = thoughtOn(knowledge, before.context);
    const { next } = thought;
    const id = action.kind === 'check' ? action.observation : action.remedy;
    const isSame = next.kind === action.kind && next.id === id;
    return [
      {
        ...own,
        planner:
          next.kind === 'hand-over'
            ? null
            : {
                label:
                  next.kind === 'check'
                    ? observationLabel(knowledge, next.id)
                    : remedyLabel(knowledge, next.id),
                minutes: next.minutes,
                sheet: { kind: next.kind === 'check' ? 'observation' : 'remedy', id: next.id },
              },
        isSame,
        costMinutes: isSame ? 0 : costOf(thought, action.kind, id, step.minutes),
      },
    ];
  });
}

/**
 * Minutes to a cure expected this way less those of the planner's way, never below 0. A check is taken by what the planner
 * expected after it; one that it did not weigh saves nothing and costs its minutes. A remedy is taken as a try by itself, after
 * which all is as before unless it cured: close, as its failing tells something too. Null where the planner knew no such remedy.
 */
function costOf(thought: Thought, kind: 'check' | 'remedy', id: string, minutes: number): number | null {
  const best = thought.next.expectedCostOfRepair;
  const after =
    kind === 'check'
      ? (thought.checks.find(({ observation }) => observation === id)?.expectedCostAfter ??
        thought.expectedCostNow + minutes)
      : costOfTry(thought, id);
  return after === null ? null : Math.max(0, after - best);
}

function costOfTry({ remedies, expectedCostNow }: Thought, id: string): number | null {
  const remedy = remedies.find((one) => one.remedy === id);
  return remedy ? remedy.minutes + (1 - remedy.repairProbability) * expectedCostNow : null;
}
