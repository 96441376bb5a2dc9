import { believe, type Belief, type InferenceOptions } from './belief.ts';
import { Expectation } from './expectation.ts';
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
  const expectation = new Expectation(belief);
  return belief.model.observations.map((_, index) => (isWanted(index) ? levelsOf(belief, expectation, index) : null));
}

function levelsOf(belief: Belief, expectation: Expectation, index: number): Float64Array {
  const observation = belief.model.observations[index];
  const count = observation?.leak.length ?? 0;
  const levels = new Float64Array(count);
  let below = 0;
  for (let level = 0; level < count; level++) {
    const atMost = level === count - 1 ? 1 : atMostLevel(belief, expectation, index, level);
    levels[level] = Math.max(0, atMost - below);
    below = atMost;
  }
  return levels;
}

function atMostLevel(belief: Belief, expectation: Expectation, index: number, level: number): number {
  const observation = belief.model.observations[index];
  if (!observation) return 0;
  const upTo = (levels: readonly number[]) => levels.slice(0, level + 1).reduce((sum, p) => sum + p, 0);
  const causes: (readonly [number, number])[] = [];
  const mechanisms: (readonly [number, number])[] = [];
  for (const link of observation.links) {
    (link.from.kind === 'cause' ? causes : mechanisms).push([link.from.index, Math.min(1, upTo(link.levels))]);
  }
  const product = expectation.average((branch, whatIf) => expectation.product(branch, whatIf, causes, mechanisms));
  return Math.min(1, upTo(observation.leak) * product);
}
