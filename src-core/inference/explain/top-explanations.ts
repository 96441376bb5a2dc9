import {
  propagate,
  causeProbability,
  type CalibratedNetwork,
  type InferenceOptions,
} from '../queries/calibrated-network.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';
import { requireIndex } from '../network/validate.ts';
import { WhatIf } from '../circuit/what-if.ts';

export interface Explanation {
  /** Causes present at first, in index order; all others of `among` are absent. */
  readonly causes: readonly number[];
  readonly probability: number;
}

export type TopExplanations =
  | {
      readonly kind: 'ok';
      /** Most probable first. */
      readonly explanations: readonly Explanation[];
      /** Causes that the sets are about; the rest is summed over. */
      readonly among: readonly number[];
      /** Probability that one of the listed sets is the true one. */
      readonly coverage: number;
      /** False when the search was cut short: a better set may have been missed. */
      readonly isProven: boolean;
    }
  | { readonly kind: 'impossible-evidence' | 'too-wide' };

export interface ExplanationOptions extends InferenceOptions {
  /** Causes to tell present or absent; by default the 20 most probable. */
  readonly among?: readonly number[];
}

const CAUSES_BY_DEFAULT = 20;
const MOST_EXPANSIONS = 4000;

/**
 * The most probable sets of causes given the evidence, by best-first search: a partial assignment is at least as
 * probable as any that completes it, and its probability is exact (marginal MAP by search on exact bounds: Park &
 * Darwiche, JAIR 21 (2004)).
 */
export function topExplanations(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  k: number,
  options: ExplanationOptions = {},
): TopExplanations {
  if (!(Number.isInteger(k) && k >= 1))
    throw new RangeError(`k must be a whole number of at least 1, got ${k}`);
  options.among?.forEach((cause) => requireIndex(cause, model.causes.length, 'among'));
  const network = propagate(model, priors, evidence, options);
  if (!network) return { kind: 'too-wide' };
  if (network.logEvidence === -Infinity) return { kind: 'impossible-evidence' };
  const chance = priors.slice(0, model.rankedCauses).map((_, cause) => causeProbability(network, cause));
  const among = [...(options.among ?? chance.keys())]
    .sort((a, b) => (chance[b] ?? 0) - (chance[a] ?? 0))
    .slice(0, options.among ? undefined : CAUSES_BY_DEFAULT);

  const probabilityOf = partialProbability(network, among);
  const queue: Partial[] = [{ isPresent: [], probability: 1 }];
  const explanations: Explanation[] = [];
  let expansions = 0;
  while (queue.length > 0 && explanations.length < k && expansions < MOST_EXPANSIONS) {
    const best = queue.pop() as Partial;
    if (best.isPresent.length === among.length) {
      const causes = among.filter((_, at) => best.isPresent[at]).sort((a, b) => a - b);
      explanations.push({ causes, probability: best.probability });
      continue;
    }
    expansions++;
    for (const next of [false, true]) {
      const isPresent = [...best.isPresent, next];
      const probability = probabilityOf(isPresent);
      if (probability > 0) insertByProbability(queue, { isPresent, probability });
    }
  }
  return {
    kind: 'ok',
    explanations,
    among: [...among].sort((a, b) => a - b),
    coverage: explanations.reduce((sum, each) => sum + each.probability, 0),
    isProven: explanations.length === k || queue.length === 0,
  };
}

interface Partial {
  /** For the first causes of `among`. */
  readonly isPresent: readonly boolean[];
  readonly probability: number;
}

function partialProbability(
  network: CalibratedNetwork,
  among: readonly number[],
): (isPresent: readonly boolean[]) => number {
  const runs = network.branches.map(({ circuit, share }) => ({ share, whatIf: new WhatIf(circuit) }));
  return (isPresent) =>
    runs.reduce((sum, { share, whatIf }) => {
      isPresent.forEach((present, at) => {
        const weights = whatIf.change(among[at] ?? -1);
        if (present) weights[0] = 0;
        else weights.fill(0, 1);
      });
      return sum + share * whatIf.ratio();
    }, 0);
}

/** Keeps the queue sorted from low to high. */
function insertByProbability(queue: Partial[], item: Partial): void {
  let low = 0;
  let high = queue.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((queue[middle]?.probability ?? 0) < item.probability) low = middle + 1;
    else high = middle;
  }
  queue.splice(low, 0, item);
}
