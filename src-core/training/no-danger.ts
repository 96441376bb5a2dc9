import type { Knowledge } from '../knowledge/knowledge.ts';
import type { PracticeCase } from './practice-case.ts';

/** Observations that mean "power off first", by index. */
export function dangerIndexes(knowledge: Knowledge): ReadonlySet<number> {
  return new Set(
    [...knowledge.observations.values()].flatMap(({ danger }, index) => (danger ? [index] : [])),
  );
}

/**
 * The same case without danger signs. Luck would put one into every sixth drawn case, beside a complaint that it has nothing to
 * do with; they belong into cases whose writer means them.
 */
export function withoutDanger(knowledge: Knowledge, practice: PracticeCase): PracticeCase {
  const dangers = dangerIndexes(knowledge);
  const { redrawn } = practice;
  return {
    ...practice,
    levelOf: (observation, left) => (dangers.has(observation) ? 0 : practice.levelOf(observation, left)),
    ...(redrawn && { redrawn: (luck: number) => withoutDanger(knowledge, redrawn(luck)) }),
  };
}
