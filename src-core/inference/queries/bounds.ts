import type { InferenceOptions } from './calibrated-network.ts';
import type { Circuit } from '../circuit/circuit.ts';
import {
  compileCircuit,
  DEFAULT_LIMITS,
  fittingOrder,
  type WidthLimits,
} from '../circuit/compile-circuit.ts';
import { encode } from '../network/encode.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';
import type { MaxNetwork } from '../network/max-network.ts';
import type { BoundedPosterior, ImpossibleEvidence } from './posterior.ts';
import { relaxNetwork, type BoundSide } from '../circuit/relax-network.ts';
import { differentiate, evaluate, stateProbability } from '../circuit/run-circuit.ts';

/** Bounds are compiled a dozen times over, so each may take less room than an exact answer. */
const BOUND_TERMS = 2 ** 18;

/**
 * Guaranteed bounds on posteriors of a network too wide for exact work: as few findings and mechanisms as needed
 * are replaced by factors that bound them from below and from above, the rest is exact.
 *
 * With L and U bounds on the joint probability of evidence and cause: P(cause | evidence) is at least
 * L(present) / (L(present) + U(absent)) and at most U(present) / (U(present) + L(absent)).
 * With tried remedies the bounds are the trivial ones.
 */
export function boundPosterior(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  options: InferenceOptions,
): BoundedPosterior | ImpossibleEvidence {
  const network = encode(model, priors, evidence);
  const given = options.limits ?? DEFAULT_LIMITS;
  const limits = { ...given, terms: Math.min(given.terms, BOUND_TERMS) };
  const count = model.causes.length;
  const { lower, upper } = boundingCircuits(network, limits);
  const logUpper = evaluate(upper);
  if (logUpper === -Infinity) return { kind: 'impossible-evidence' };
  const logLower = evaluate(lower);
  const causesLower = new Float64Array(count);
  const causesUpper = new Float64Array(count).fill(1);
  if (logLower > -Infinity && !options.history?.tries.length) {
    differentiate(upper);
    differentiate(lower);
    const ratio = Math.exp(logLower - logUpper);
    for (let cause = 0; cause < count; cause++) {
      const lowerPresent = ratio * stateProbability(lower, cause, 1);
      const lowerAbsent = ratio * stateProbability(lower, cause, 0);
      const upperPresent = stateProbability(upper, cause, 1);
      const upperAbsent = stateProbability(upper, cause, 0);
      causesLower[cause] = lowerPresent > 0 ? lowerPresent / (lowerPresent + upperAbsent) : 0;
      causesUpper[cause] = upperPresent > 0 ? upperPresent / (upperPresent + lowerAbsent) : 0;
    }
  }
  return {
    kind: 'ok',
    exact: false,
    logEvidence: [options.history?.tries.length ? -Infinity : logLower, logUpper],
    causesLower,
    causesUpper,
    causes: causesLower.map((low, cause) => (low + (causesUpper[cause] ?? 1)) / 2),
  };
}

/** Relaxes the shortest prefix of `relaxationOrder` that fits the limits (found by halving). */
function boundingCircuits(network: MaxNetwork, limits: WidthLimits): { lower: Circuit; upper: Circuit } {
  const order = relaxationOrder(network);
  const relaxed = (length: number, side: BoundSide) =>
    relaxNetwork(network, new Set(order.slice(0, length)), side);
  let tooFew = 0;
  let enough = order.length;
  while (enough - tooFew > 1) {
    const middle = Math.floor((tooFew + enough) / 2);
    // Both sides have the same shape.
    if (fittingOrder(relaxed(middle, 'lower'), limits)) enough = middle;
    else tooFew = middle;
  }
  const lower = compileCircuit(relaxed(enough, 'lower'), limits);
  const upper = compileCircuit(relaxed(enough, 'upper'), limits);
  // With everything relaxed the network is a product over causes, which fits any limit.
  if (!lower || !upper) throw new Error('a relaxed network must fit the width limits');
  return { lower, upper };
}

/**
 * Which auxiliaries to give up first: mechanisms with only absent findings below (they say least), the
 * busiest first; then findings; then the mechanisms above those.
 */
function relaxationOrder(network: MaxNetwork): number[] {
  const linkCount = new Int32Array(network.auxiliaries.length);
  const hasFindingBelow = new Set<number>();
  for (const link of network.links) {
    linkCount[link.auxiliary] = (linkCount[link.auxiliary] ?? 0) + 1;
    const settledBy = network.sources[link.source]?.settledBy ?? -1;
    if (settledBy >= 0) hasFindingBelow.add(settledBy);
  }
  const rank = (a: number) => {
    if ((network.auxiliaries[a]?.settles ?? -1) < 0) return 1;
    return hasFindingBelow.has(a) ? 2 : 0;
  };
  return network.auxiliaries
    .map((_, a) => a)
    .sort((a, b) => rank(a) - rank(b) || (linkCount[b] ?? 0) - (linkCount[a] ?? 0));
}
