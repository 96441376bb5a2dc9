export type Posterior = ExactPosterior | BoundedPosterior | ImpossibleEvidence;

export interface ExactPosterior {
  readonly kind: 'ok';
  readonly exact: true;
  /** Natural log of the probability of the evidence (and of what the tried remedies did). */
  readonly logEvidence: number;
  /** Probability that each cause was present when the case began. */
  readonly causes: Float64Array;
  /** Natural log-odds of the same, with full precision near 0 and near 1. */
  readonly causeLogOdds: Float64Array;
  /** Probability that each cause is present after all tries; equal to `causes` when nothing was tried. */
  readonly remainingCauses: Float64Array;
  /** Probability that each mechanism is going after all tries. */
  readonly mechanisms: Float64Array;
}

export interface BoundedPosterior {
  readonly kind: 'ok';
  readonly exact: false;
  /** Guaranteed bounds; the truth lies between. */
  readonly logEvidence: readonly [lower: number, upper: number];
  readonly causesLower: Float64Array;
  readonly causesUpper: Float64Array;
  /** Middle of the bounds, for orderings only. */
  readonly causes: Float64Array;
}

export interface ImpossibleEvidence {
  readonly kind: 'impossible-evidence';
}
