import {
  trainingActionSchema,
  type TrainingAction,
  type TrainingActionInput,
} from '../contract/training-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { emptyContext, type CaseContext } from '../session/case-machine.ts';
import type { PracticeCase } from './practice-case.ts';

/** One thing done in a practice case and what came of it. */
export interface PracticeStep {
  readonly action: TrainingAction;
  readonly minutes: number;
  /** Level id for a check; an outcome for a remedy. */
  readonly result: string;
  /** Ids of what can hurt somebody in doing it. */
  readonly cautions: readonly string[];
}

export interface PracticeRun {
  readonly steps: readonly PracticeStep[];
  readonly minutesSpent: number;
  readonly isCured: boolean;
  readonly named: Extract<TrainingAction, { kind: 'name-cause' }> | null;
  /** What was wrong at the start. */
  readonly complaints: readonly { readonly observation: string; readonly value: string }[];
  /** What the guide would know by now. */
  readonly context: CaseContext;
}

/** A remedy's minutes as a case counts them: all hands-on time and a share of the waiting. */
export type RemedyMinutes = (remedy: string) => number;

/** Plays actions against a practice case. Actions after the cause was named are left out. */
export function playPractice(
  knowledge: Knowledge,
  practice: PracticeCase,
  actions: readonly TrainingActionInput[],
  remedyMinutes: RemedyMinutes,
): PracticeRun {
  const observationIds = [...knowledge.observations.keys()];
  const left = new Set(practice.causes);
  const levelId = (index: number) =>
    knowledge.levelsOf(observationIds[index] ?? '')[practice.levelOf(index, left)] ?? 'absent';
  const complaints = practice.complaints.map((index) => ({
    observation: observationIds[index] ?? '',
    value: levelId(index),
  }));
  const steps: PracticeStep[] = [];
  let isCured = false;
  let named: PracticeRun['named'] = null;
  const findings: Record<string, string | number> = Object.fromEntries(
    complaints.map(({ observation, value }) => [observation, value]),
  );
  const seenAfterTries: Record<string, number> = {};
  const tried: string[] = [];
  const isPresent = (index: number) => practice.levelOf(index, left) > 0;
  const levels = () => practice.complaints.map((index) => practice.levelOf(index, left));

  for (const given of actions) {
    if (named !== null) break;
    const action = trainingActionSchema.parse(given);
    if (action.kind === 'check') {
      const index = knowledge.observationIndex.get(action.observation);
      const check = knowledge.observations.get(action.observation)?.check;
      if (index === undefined || check === undefined) continue;
      const result = levelId(index);
      findings[action.observation] = result;
      seenAfterTries[action.observation] = tried.length;
      steps.push({ action, minutes: check.minutes, result, cautions: check.cautions });
    } else if (action.kind === 'remedy') {
      if (!knowledge.remedies.has(action.remedy)) continue;
      const before = levels();
      for (const cause of practice.causes) if (practice.removes(action.remedy, cause)) left.delete(cause);
      const after = levels();
      isCured = after.every((level) => level === 0);
      tried.push(action.remedy);
      steps.push({
        action,
        minutes: remedyMinutes(action.remedy),
        result: isCured
          ? 'cured'
          : after.some((level, i) => level < (before[i] ?? 0))
            ? 'better'
            : 'not-cured',
        cautions: cautionsOfRemedy(knowledge, action.remedy),
      });
    } else {
      named = action;
      steps.push({ action, minutes: 0, result: '', cautions: [] });
    }
  }
  // What is left of the complaint is the trouble now: no remedy so far has cleared it.
  const open = practice.complaints.filter(isPresent).map((index) => observationIds[index] ?? '');
  const remaining = complaints.filter(({ observation }) => open.includes(observation));
  return {
    steps,
    minutesSpent: steps.reduce((sum, step) => sum + step.minutes, 0),
    isCured,
    named,
    complaints,
    context: {
      ...emptyContext,
      intake: {
        printerId: null,
        spoolId: null,
        openedBy: null,
        conditions: { ...practice.conditions },
        complaints: remaining,
        words: '',
      },
      conditions: practice.conditions,
      findings,
      seenAfterTries,
      tried: tried.map((remedy) => ({ remedy, outcome: 'not-cured' as const })),
    },
  };
}

/** What can hurt somebody on any step of a remedy; each once. */
export function cautionsOfRemedy(knowledge: Knowledge, remedy: string): string[] {
  return [...new Set(knowledge.remedies.get(remedy)?.steps.flatMap((step) => step.cautions) ?? [])];
}
