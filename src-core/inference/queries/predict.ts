import { propagate, type CalibratedNetwork, type InferenceOptions } from './calibrated-network.ts';
import { atMostLevels, networkExpectation } from './expectation.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';

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
  const network = propagate(model, priors, evidence, options);
  if (!network) return { kind: 'too-wide' };
  if (network.logEvidence === -Infinity) return { kind: 'impossible-evidence' };
  const known = new Set(evidence.map((finding) => finding.observation));
  const expectation = networkExpectation(network);
  const isWide = (observation: number) => expectation.unreachedMechanisms(observation) > MOST_MECHANISMS;
  const levels = predictLevels(network, (observation) => !known.has(observation) && !isWide(observation));
  return {
    kind: 'ok',
    levels: levels.map((row, observation) =>
      row === null && !known.has(observation)
        ? levelsByEvidence(model, priors, evidence, observation, network.logEvidence, options)
        : row,
    ),
  };
}

/** Each mechanism that the evidence does not reach doubles the runs; past this the observation is taken in as evidence. */
const MOST_MECHANISMS = 5;

/** The same by taking the observation in as evidence, level by level: P(level | evidence) = P(level, evidence) / P(evidence). */
function levelsByEvidence(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  observation: number,
  logEvidence: number,
  options: InferenceOptions,
): Float64Array | null {
  const count = model.observations[observation]?.leak.length ?? 0;
  const seen = options.history && {
    ...options.history,
    seenAfterTries: new Map([
      ...(options.history.seenAfterTries ?? []),
      [observation, options.history.tries.length] as const,
    ]),
  };
  const levels = new Float64Array(count);
  for (let level = 0; level < count; level++) {
    const found = propagate(model, priors, [...evidence, { observation, kind: 'level', level }], {
      ...options,
      ...(seen && { history: seen }),
    });
    if (!found) return null;
    levels[level] = Math.exp(found.logEvidence - logEvidence);
  }
  return levels;
}

/** Levels of the observations wanted, null for the others. */
export function predictLevels(
  network: CalibratedNetwork,
  isWanted: (observation: number) => boolean,
): readonly (Float64Array | null)[] {
  const expectation = networkExpectation(network);
  return network.model.observations.map((_, index) =>
    isWanted(index) ? differences(atMostLevels(network.model, expectation, index)) : null,
  );
}

/** Probability of each level from that of at most each level. */
function differences(atMost: Float64Array): Float64Array {
  return atMost.map((value, level) => Math.max(0, value - (atMost[level - 1] ?? 0)));
}
