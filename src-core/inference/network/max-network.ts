/**
 * The form that the exact engine works on. `encode` writes a case into it; `compileCircuit` turns it into sums
 * and products. Everything in it is non-negative.
 *
 * A source (a root cause, or a mechanism once it is settled) is in one of a few states; state 0 is "absent" and
 * raises nothing. An auxiliary collects what its sources raise: its value is the join (for plain findings the
 * maximum) of the values that each source raised on its own. This is the convergent variable of Zhang & Poole,
 * Exploiting causal independence in Bayesian network inference, JAIR 5 (1996), with the leaky noisy-MAX gate of
 * Díez & Galán, Efficient computation for the noisy MAX, Int. J. Intelligent Systems 18 (2003).
 */
export interface MaxNetwork {
  /** Causes first, at their own index; then the mechanisms that have evidence below them. */
  readonly sources: readonly Source[];
  readonly auxiliaries: readonly Accumulator[];
  readonly links: readonly MaxLink[];
  /** Natural log of the factors that touch no variable; -Infinity when they make the evidence impossible. */
  readonly logConstant: number;
  /** Where each finding of the evidence went, in its order; null after a relaxation. */
  readonly findings: readonly FindingPlace[] | null;
}

export interface FindingPlace {
  /** -1 for a finding that is a constant and factors on its parents. */
  readonly auxiliary: number;
  readonly constant: number;
  readonly factors: readonly SourceFactor[];
}

export interface SourceFactor {
  readonly source: number;
  readonly state: number;
  readonly factor: number;
}

export interface Source {
  readonly kind: 'cause' | 'mechanism';
  /** Index in the model. */
  readonly index: number;
  /** Weight of each state: prior times what the absent findings say; for a mechanism only the latter. */
  readonly weights: Float64Array;
  /** The part of each weight that comes from the findings: probability of the absent ones given the state. */
  readonly factors: Float64Array;
  /** Accumulator that settles this mechanism; -1 for a cause. */
  readonly settledBy: number;
}

export interface Accumulator {
  readonly states: number;
  /** Distribution over states from the leak alone. */
  readonly start: Float64Array;
  /** join[i * states + j] is the state reached when i and j were both raised. State 0 is neutral. */
  readonly join: Int32Array;
  /** Likelihood of each final state; null when the auxiliary settles a mechanism instead. */
  readonly closes: Float64Array | null;
  /** Source (index into `sources`) that takes the final state; -1 for a finding. */
  readonly settles: number;
}

export interface MaxLink {
  readonly source: number;
  readonly auxiliary: number;
  /** rows[s * states + k]: weight with which source state s raises state k. Row 0 is 1, 0, 0, ... */
  readonly rows: Float64Array;
}

/** Join table of a plain maximum over `states` levels. */
export function maximumJoin(states: number): Int32Array {
  return Int32Array.from({ length: states * states }, (_, k) => Math.max(Math.floor(k / states), k % states));
}
