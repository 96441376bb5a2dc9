import type { InferenceOptions } from '../queries/calibrated-network.ts';
import type { PosteriorCache } from '../queries/posterior-cache.ts';
import { decibansOf } from './decibans.ts';
import { inOneOrder } from '../network/evidence-order.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';
import { infer } from '../queries/infer.ts';
import type { Posterior } from '../queries/posterior.ts';

export type WeightExplanation =
  | {
      readonly kind: 'ok';
      /** Shapley values up to `SHAPLEY_FINDINGS` findings; beyond, each finding after those entered before it. */
      readonly method: 'shapley' | 'sequential';
      /** findings[cause][k]: decibans that finding k of the evidence adds for the cause. */
      readonly findings: readonly Float64Array[];
      /** Decibans that the outcomes of tried remedies add, after all findings. */
      readonly tried: Float64Array;
      /** Decibans from prior to posterior: the sum of the above. */
      readonly total: Float64Array;
    }
  | { readonly kind: 'impossible-evidence' | 'too-wide' };

/** 2^8 posteriors; more would keep an operator waiting. */
export const SHAPLEY_FINDINGS = 8;

export interface ExplainOptions extends InferenceOptions {
  /** Most findings that are averaged over all orders; beyond, and with 0 always, weights are sequential. */
  readonly shapleyUpTo?: number;
  /** Results of earlier questions about the same model. */
  readonly memory?: PosteriorCache;
  /** The posterior of exactly this case, if it is at hand. */
  readonly posterior?: Posterior;
}

/**
 * Why a cause rose or fell: a weight of evidence in decibans for each finding, adding up exactly to the change of
 * the cause's log-odds. Findings are not independent given a cause (other causes explain them too), so a weight
 * depends on what was known before; the Shapley value averages over all orders of entry (Shapley 1953; for
 * explanations Štrumbelj & Kononenko, JMLR 11 (2010)). Sequential weights of evidence: Madigan, Mosurski &
 * Almond, J. Comput. Graph. Stat. 6 (1997).
 *
 * A finding that settles a cause for certain has weight ±Infinity; then weights are sequential.
 */
export function explainWeights(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  options: ExplainOptions = {},
): WeightExplanation {
  const count = evidence.length;
  const { history, shapleyUpTo = SHAPLEY_FINDINGS, memory, posterior, ...limits } = options;
  const subset = (findings: readonly GraphEvidence[]) =>
    memory ? memory.logOdds(priors, findings) : exactLogOdds(model, priors, findings, limits);
  const cache = new Map<number, Float64Array | null>();
  // Bit k of the mask: finding k is known.
  const logOdds = (mask: number): Float64Array | null => {
    const known = cache.get(mask);
    if (known !== undefined) return known;
    const value = subset(evidence.filter((_, k) => (mask >> k) & 1));
    cache.set(mask, value);
    return value;
  };
  const whole = posterior ?? infer(model, priors, evidence, { ...limits, ...(history && { history }) });
  if (whole.kind !== 'ok') return { kind: 'impossible-evidence' };
  if (!whole.exact) return { kind: 'too-wide' };
  const prefixes = Array.from({ length: count + 1 }, (_, k) =>
    k <= 30 ? logOdds(2 ** k - 1) : subset(evidence.slice(0, k)),
  );
  if (prefixes.some((each) => each === null)) return { kind: 'too-wide' };
  const before = prefixes[0] ?? new Float64Array(0);
  const after = prefixes[count] ?? before;

  const usesShapley = count <= shapleyUpTo && isFiniteForAll(count, logOdds, before);
  const findings = model.causes.map((_, cause) =>
    usesShapley
      ? shapleyValues(count, (mask) => logOdds(mask)?.[cause] ?? 0)
      : Float64Array.from({ length: count }, (__, k) =>
          change(prefixes[k]?.[cause] ?? 0, prefixes[k + 1]?.[cause] ?? 0),
        ),
  );
  return {
    kind: 'ok',
    method: usesShapley ? 'shapley' : 'sequential',
    findings: findings.map((weights) => weights.map(decibansOf)),
    tried: whole.causeLogOdds.map((value, cause) =>
      history ? decibansOf(change(after[cause] ?? 0, value)) : 0,
    ),
    total: whole.causeLogOdds.map((value, cause) => decibansOf(change(before[cause] ?? 0, value))),
  };
}

function exactLogOdds(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  options: InferenceOptions,
): Float64Array | null {
  const found = infer(model, priors, inOneOrder(evidence), options);
  return found.kind === 'ok' && found.exact ? found.causeLogOdds : null;
}

/** Whether every subset can be averaged: exact, and certain only where the prior was. */
function isFiniteForAll(
  count: number,
  logOdds: (mask: number) => Float64Array | null,
  before: Float64Array,
): boolean {
  for (let mask = 0; mask < 2 ** count; mask++) {
    const values = logOdds(mask);
    if (!values?.every((value, cause) => Number.isFinite(value) || value === before[cause])) return false;
  }
  return true;
}

/** Shapley values of a game over `count` players given by bit mask. */
function shapleyValues(count: number, worth: (mask: number) => number): Float64Array {
  const values = new Float64Array(count);
  // weight[size] = size! (count - size - 1)! / count!
  const weight = new Float64Array(count);
  for (let size = 0; size < count; size++) {
    let w = 1 / count;
    for (let j = 1; j <= size; j++) w *= j / (count - j);
    weight[size] = w;
  }
  for (let mask = 0; mask < 2 ** count; mask++) {
    let size = 0;
    for (let k = 0; k < count; k++) size += (mask >> k) & 1;
    for (let k = 0; k < count; k++) {
      if ((mask >> k) & 1) continue;
      values[k] = (values[k] ?? 0) + (weight[size] ?? 0) * change(worth(mask), worth(mask | (1 << k)));
    }
  }
  return values;
}

/** Difference that is 0 for a cause that is certain throughout. */
function change(from: number, to: number): number {
  return from === to ? 0 : to - from;
}
