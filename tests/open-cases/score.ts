import type { Answer } from './open-cases.ts';

/** How well a set of cases was answered. Shares 0-1. */
export interface Score {
  readonly cases: number;
  readonly first: number;
  readonly firstThree: number;
  readonly firstTen: number;
  /** Mean of 1 / rank of the best accepted cause (mean reciprocal rank, 0-1); 0 counts where it is no candidate. */
  readonly reciprocalRank: number;
  /** How many answers go on with a check, a remedy or a hand-over. */
  readonly nextKinds: ReadonlyMap<string, number>;
}

export function scoreOf(answers: readonly Answer[]): Score {
  const within = (place: number) =>
    answers.filter(({ rank }) => rank >= 1 && rank <= place).length / answers.length;
  const nextKinds = new Map<string, number>();
  for (const { diagnosis } of answers)
    nextKinds.set(diagnosis.next.kind, (nextKinds.get(diagnosis.next.kind) ?? 0) + 1);
  return {
    cases: answers.length,
    first: within(1),
    firstThree: within(3),
    firstTen: within(10),
    reciprocalRank: answers.reduce((sum, { rank }) => sum + (rank > 0 ? 1 / rank : 0), 0) / answers.length,
    nextKinds,
  };
}
