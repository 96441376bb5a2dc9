import type { GraphEvidence } from './graph-model.ts';

/**
 * Worlds of one case: world 0 is the machine as it came; each later world has had more causes taken away, with
 * all other chance events the same (twin networks: Balke & Pearl, AAAI-12 (1994); Pearl, Causality, 2nd ed.
 * (2009), section 7.1.4). Causes are only ever taken away, so a cause is told apart by the last world in which
 * it is alive: class k (1 ... `classes`) is alive in worlds 0 ... k - 1. A mechanism is as alive as the most
 * enduring cause that drives it, which is again a maximum.
 */
export interface WorldView {
  /** Number of worlds kept apart, at least 1. */
  readonly classes: number;
  /** Probability of each class (index k - 1 for class k) of a cause that is present in world 0. */
  classProbabilities(cause: number): ArrayLike<number>;
  /** World in which an observation was made. */
  worldOf(observation: number): number;
  /** What else is known or asked of an observation of the complaint. */
  eventOf(observation: number): ComplaintEvent | undefined;
}

/** Demand on a complaint's observation in later worlds. */
export interface ComplaintEvent {
  /** The observation is at level 0 in this world; null when nothing is demanded. */
  readonly goneAt: number | null;
  /** The observation is above level 0 in this world; null when nothing is demanded. */
  readonly heldAt: number | null;
}

const CERTAIN = [1];

/** The world as it is, nothing taken away. */
export const PLAIN_WORLD: WorldView = {
  classes: 1,
  classProbabilities: () => CERTAIN,
  worldOf: () => 0,
  eventOf: () => undefined,
};

/** Likelihood over the levels of an observation with `levels` levels. */
export function likelihoodOf(finding: GraphEvidence, levels: number): readonly number[] {
  if (finding.kind === 'likelihood') return finding.likelihood;
  return Array.from({ length: levels }, (_, level) => (level === finding.level ? 1 : 0));
}
