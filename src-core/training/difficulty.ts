import type { Difficulty } from '../contract/training-choices.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { rankCauses } from '../session/reason-about.ts';
import type { PracticeCase } from './practice-case.ts';
import { playPractice } from './practice-run.ts';

/** Places in the guide's list up to which a case is easy, or middling. Our own marks. */
const EASY_UP_TO = 4;
const MIDDLING_UP_TO = 15;

/**
 * How hard a case is: where its causes stand in the guide's list when nothing but the complaint is known. A rare cause and a
 * misleading complaint put it far down; of two causes the lower place counts.
 */
export function difficultyOf(knowledge: Knowledge, practice: PracticeCase): Difficulty {
  const { context } = playPractice(knowledge, practice, [], () => 0);
  const order = rankCauses(knowledge, context).map(({ cause }) => knowledge.causeIndex.get(cause));
  const places = practice.causes.map((cause) => {
    const at = order.indexOf(cause);
    return at < 0 ? order.length + 1 : at + 1;
  });
  const worst = Math.max(...places);
  return worst <= EASY_UP_TO ? 'easy' : worst <= MIDDLING_UP_TO ? 'middling' : 'hard';
}
