import { believe, type Belief, type InferenceOptions } from './belief.ts';
import { atMostLevels, beliefExpectation } from './expectation.ts';
import type { GraphEvidence, GraphModel } from './graph-model.ts';

export type Prediction =
  | {
      readonly kind: 'ok';
      /** levels[observation][level], as it would be found now; null for an observation in evidence. */
      readonly levels: readonly (Float64Array | null)[];
    }
  | { readonly kind: 'impossible-evidence' }
  | { readonly kind: 'too-wide' };

/**
 * Probability of each level of every observation that has no evidence yet, in the world after all tries.
 *
 * Exact: P(level <= k | evidence) is the expectation of a product over the parents (Díez & Galán 2003, eq. 4),
 * which one partial run of the network gives. Levels are differences of these, right to about 1e-15 absolute.
 */
export function predict(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  options: InferenceOptions = {},
): Prediction {
  const belief = believe(model, priors, evidence, options);
  if (!belief) return { kind: 'too-wide' };
  if (belief.logEvidence === -Infinity) return { kind: 'impossible-evidence' };
  const known = new Set(evidence.map((finding) => finding.observation));
  return { kind: 'ok', levels: predictLevels(belief, (observation) => !known.has(observation)) };
}

/** Levels of the observations wanted, null for the others. */
export function predictLevels(
  belief: Belief,
  isWanted: (observation: number) => boolean,
): readonly (Float64Array | null)[] {
  const expectation = beliefExpectation(belief);
  return belief.model.observations.map((_, index) =>
    isWanted(index) ? differences(atMostLevels(belief.model, expectation, index)) : null,
  );
}

/** Probability of each level from that of at most each level. */
function differences(atMost: Float64Array): Float64Array {
  return atMost.map((value, level) => Math.max(0, value - (atMost[level - 1] ?? 0)));
}
