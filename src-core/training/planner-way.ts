import type { TrainingAction } from '../contract/training-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseContext } from '../session/case-context.ts';
import type { CaseReasoning } from '../session/case-reasoning.ts';
import { keepFew } from '../session/keep-few.ts';
import { reasonAbout, remedyMinutes } from '../session/reason-about.ts';
import type { PracticeCase } from './practice-case.ts';
import { playPractice, type PracticeRun } from './practice-run.ts';

/** The planner gives up on a practice case after this many steps and hands over. */
const PLANNER_STEPS = 15;
/** Runs with other luck beside the case itself: each takes as long as the case. */
const OTHER_RUNS = 2;

/** What the planner says of a state of a case, kept by guide: a debrief meets the same states many times. */
const kept = keepFew<Knowledge, Thought>(400);

export type Thought = Pick<CaseReasoning, 'next' | 'checks' | 'remedies' | 'expectedCostNow'>;

export function thoughtOn(knowledge: Knowledge, context: CaseContext): Thought {
  const { conditions, findings, seenAfterTries, tried, intake } = context;
  const key = JSON.stringify([conditions, findings, seenAfterTries, tried, intake?.complaints]);
  return kept(knowledge, key, () => {
    const { next, checks, remedies, expectedCostNow } = reasonAbout(knowledge, context);
    return { next, checks, remedies, expectedCostNow };
  });
}

/** The guide's own way through a case: its next step, again and again, until the complaint is gone. */
export function playPlanner(knowledge: Knowledge, practice: PracticeCase): PracticeRun {
  const actions: TrainingAction[] = [];
  const play = () => playPractice(knowledge, practice, actions, (id) => remedyMinutes(knowledge, id));
  for (let step = 0; step < PLANNER_STEPS; step++) {
    const played = play();
    if (played.isCured) return played;
    const { next } = thoughtOn(knowledge, played.context);
    if (next.kind === 'hand-over') break;
    actions.push(
      next.kind === 'check'
        ? { kind: 'check', observation: next.id, readCautions: true }
        : { kind: 'remedy', remedy: next.id, readCautions: true },
    );
  }
  return play();
}

/**
 * Minutes of the planner in this case and in a few others with the same causes and complaints, least first. Only its own where it
 * did not get there: others would not either.
 */
export function plannerSpread(knowledge: Knowledge, practice: PracticeCase, own: PracticeRun): number[] {
  if (!own.isCured) return [own.minutesSpent];
  const others = Array.from({ length: OTHER_RUNS }, (_, index) => practice.redrawn?.(index + 1)).flatMap(
    (other) => (other ? [playPlanner(knowledge, other)] : []),
  );
  return [own, ...others].map(({ minutesSpent }) => minutesSpent).sort((a, b) => a - b);
}
