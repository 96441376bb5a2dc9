import {
  aliveProbability,
  propagate,
  causeProbability,
  mixture,
  remainingProbability,
  type CalibratedNetwork,
  type InferenceOptions,
} from './calibrated-network.ts';
import { boundPosterior } from './bounds.ts';
import { networkExpectation } from './expectation.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';
import type { ExactPosterior, ImpossibleEvidence, Posterior } from './posterior.ts';

/**
 * Posterior probability of every cause and mechanism given the evidence.
 *
 * Requires: `priors` holds one probability a cause; evidence names each observation at most once. Wrong use throws.
 * Ensures: exact sums of positive terms, so each probability, however small, is right to about 1e-12 relative;
 * when the network is wider than `options.limits` the result has `exact: false` and carries guaranteed bounds.
 * Returns `{ kind: 'impossible-evidence' }` when the evidence has probability 0.
 * Method: bucket elimination with causal independence (Zhang & Poole, JAIR 5 (1996); Díez & Galán 2003) run
 * forward and backward (Darwiche, J. ACM 50 (2003)).
 *
 * @example
 * const posterior = infer(model, priors, [{ observation: 3, kind: 'level', level: 1 }]);
 * if (posterior.kind === 'ok' && posterior.exact) console.log(posterior.causes[0]);
 */
export function infer(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  options: InferenceOptions = {},
): Posterior {
  const network = propagate(model, priors, evidence, options);
  return network ? posteriorOf(network) : boundPosterior(model, priors, evidence, options);
}

/** Posterior of a network at hand, for callers that ask several questions of one case. */
export function posteriorOf(network: CalibratedNetwork): ExactPosterior | ImpossibleEvidence {
  if (network.logEvidence === -Infinity) return { kind: 'impossible-evidence' };
  const count = network.model.causes.length;
  const causes = new Float64Array(count);
  const causeLogOdds = new Float64Array(count);
  const remainingCauses = new Float64Array(count);
  for (let cause = 0; cause < count; cause++) {
    const present = causeProbability(network, cause);
    const absent = causeProbability(network, cause, false);
    causes[cause] = present / (present + absent);
    causeLogOdds[cause] = Math.log(present) - Math.log(absent);
    remainingCauses[cause] = remainingProbability(network, cause);
  }
  let mechanisms: Float64Array | null = null;
  return {
    kind: 'ok',
    exact: true,
    logEvidence: network.logEvidence,
    causes,
    causeLogOdds,
    remainingCauses,
    // Worked out when asked for: one that no finding reaches takes a run of the network, and most callers want none.
    get mechanisms() {
      return (mechanisms ??= mechanismPosteriors(network));
    },
  };
}

function mechanismPosteriors(network: CalibratedNetwork): Float64Array {
  const expectation = networkExpectation(network);
  return Float64Array.from(network.model.mechanisms, (_, mechanism) => {
    const isReached = network.branches.every((branch) => branch.mechanismSource.has(mechanism));
    if (!isReached) return Math.max(0, 1 - expectation.product([], [], [mechanism]));
    return mixture(network, (branch) =>
      aliveProbability(branch.circuit, branch.mechanismSource.get(mechanism) ?? -1, branch.cuts.length - 1),
    );
  });
}
