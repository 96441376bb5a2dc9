import type { TrainingRun } from '../contract/training-view.ts';
import type { Difficulty } from '../contract/training-choices.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { keepFew } from '../session/keep-few.ts';
import { difficultyOf } from './difficulty.ts';
import { drawPracticeCase, type PracticeCase } from './practice-case.ts';
import { withoutDanger } from './no-danger.ts';
import { topicOf } from './topics.ts';
import { withWrongAnswers } from './unsure-answers.ts';
import { practiceOfScenario, type WrittenCase } from './written-case.ts';

/** A practice case as it is set before a trainee. */
export interface SetCase {
  readonly practice: PracticeCase;
  readonly difficulty: Difficulty;
  /** The words of whoever wrote it; null for a drawn one. */
  readonly written: WrittenCase | null;
}

/** Draws of a wanted difficulty before the last one is taken as it is. */
const MOST_DRAWS = 60;
const NEXT_SEED = 0x9e3779b9;

/** Cases kept, by guide: a case is set anew at each of its steps, and drawing one of a wanted kind takes a while. */
const kept = keepFew<Knowledge, SetCase>(40);

/** The case that a run is about: written, the shop's own (`own`), or drawn. The same run gives the same case. */
export function setCase(knowledge: Knowledge, run: TrainingRun, own: WrittenCase | null): SetCase {
  const key = JSON.stringify([{ ...run, actions: [], withOdds: null, asCase: null }, own]);
  return kept(knowledge, key, () => setAnew(knowledge, run, own));
}

function setAnew(knowledge: Knowledge, run: TrainingRun, own: WrittenCase | null): SetCase {
  const written = own ?? (run.scenario === null ? null : (knowledge.scenarios.get(run.scenario) ?? null));
  const noisy = (practice: PracticeCase) => withWrongAnswers(knowledge, practice, run.wrongAnswers, run.seed);
  if (written) {
    const practice = practiceOfScenario(knowledge, written);
    const difficulty = own ? difficultyOf(knowledge, practice) : written.difficulty;
    return { practice: noisy(practice), difficulty, written };
  }
  const wish = {
    family: run.family,
    causes: run.causes,
    isWanted: (cause: string) =>
      run.focus === null
        ? run.topic === null || topicOf(knowledge, cause) === run.topic
        : cause === run.focus,
  };
  for (let draw = 0; ; draw++) {
    const practice = drawPracticeCase(knowledge, (run.seed + draw * NEXT_SEED) >>> 0, wish);
    const difficulty = difficultyOf(knowledge, practice);
    if (run.difficulty === null || difficulty === run.difficulty || draw >= MOST_DRAWS)
      return { practice: noisy(withoutDanger(knowledge, practice)), difficulty, written: null };
  }
}
