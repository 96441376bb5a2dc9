import type { Difficulty } from '../contract/training-choices.ts';

/**
 * Bayesian knowledge tracing: Corbett A. T., Anderson J. R., Knowledge tracing: modeling the acquisition of procedural knowledge,
 * User Modeling and User-Adapted Interaction 4 (1995) 253-278; with guess and slip by the item's difficulty as in Pardos Z. A.,
 * Heffernan N. T., KT-IDEM, UMAP 2011, LNCS 6787, 243-254. Somebody has a topic or has it not; each case tells something of
 * that and may teach it. There is no forgetting in it: what was missed comes back by `repetition.ts`.
 */
export interface TracingNumbers {
  /** Chance that somebody has it before the first case. */
  readonly prior: number;
  /** Chance that a case teaches it to somebody who has it not. */
  readonly learns: number;
  /** Chance to get it right without having it, and wrong with it. */
  readonly guess: number;
  readonly slip: number;
}

/** How an item is taken: a practice case or drill by its difficulty, a vote in a group among few choices. */
export type ItemKind = Difficulty | 'vote';

const PRIOR = 0.15;
const LEARNS = 0.2;
const GUESS_AND_SLIP: Readonly<Record<ItemKind, { readonly guess: number; readonly slip: number }>> = {
  easy: { guess: 0.25, slip: 0.08 },
  middling: { guess: 0.18, slip: 0.15 },
  hard: { guess: 0.1, slip: 0.3 },
  vote: { guess: 0.35, slip: 0.15 },
};

/** The numbers that the program goes by. Our own estimates, until there are results of many trainees to fit them to. */
export function numbersOf(kind: ItemKind): TracingNumbers {
  return { prior: PRIOR, learns: LEARNS, ...GUESS_AND_SLIP[kind] };
}

/** Chance that somebody has it, given that he got it right or wrong, before the case taught anything. */
export function knownGiven(known: number, isRight: boolean, { guess, slip }: TracingNumbers): number {
  const has = known * (isRight ? 1 - slip : slip);
  const hasNot = (1 - known) * (isRight ? guess : 1 - guess);
  return has / (has + hasNot);
}

/** The same after the case and its debrief. */
export function knownAfter(known: number, isRight: boolean, numbers: TracingNumbers): number {
  const given = knownGiven(known, isRight, numbers);
  return given + (1 - given) * numbers.learns;
}

/** Chance to get the next one right. */
export function chanceRight(known: number, { guess, slip }: TracingNumbers): number {
  return known * (1 - slip) + (1 - known) * guess;
}
