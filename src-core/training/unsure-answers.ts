import type { Knowledge } from '../knowledge/knowledge.ts';
import type { PracticeCase } from './practice-case.ts';
import { seededRandom } from './seeded-random.ts';

/**
 * The same case where a check now and then shows what is not so, with chance `share` (0 to 1): the neighbouring level, the same
 * however often one looks. What the case was opened for stays true, and so do danger signs.
 */
export function withWrongAnswers(
  knowledge: Knowledge,
  practice: PracticeCase,
  share: number,
  seed: number,
): PracticeCase {
  if (share <= 0) return practice;
  const random = seededRandom(seed ^ 0x2545f491);
  const told = new Set(practice.complaints);
  const wrong = [...knowledge.observations.values()].map(
    ({ danger }, index) => random() < share && !told.has(index) && !danger,
  );
  const counts = [...knowledge.observations.keys()].map((id) => knowledge.levelsOf(id).length);
  return {
    ...practice,
    levelOf: (observation, left) => {
      const level = practice.levelOf(observation, left);
      if (!wrong[observation]) return level;
      return level > 0 ? level - 1 : Math.min(1, (counts[observation] ?? 1) - 1);
    },
  };
}
