import type { Accumulator, MaxLink, MaxNetwork, Source } from '../network/max-network.ts';

export type BoundSide = 'lower' | 'upper';

/** Activations surer than this (e^-40) count as this sure; the difference is far below rounding. */
const LARGEST_RATE = 40;

/**
 * Replaces the named auxiliaries by factors on their parents, such that the probability of the evidence with any
 * set of causes can only fall ('lower') or only rise ('upper').
 *
 * A two-state auxiliary with likelihoods (a, b) and parents that stay silent with probability exp(-rate) is worth
 * exp(g(x)), g(x) = log(b + (a - b) exp(-x)), at x = leak rate + sum of the rates of present parents. g is concave
 * for a < b (a present finding) and convex for a > b. A line from single steps, g(x0) + sum of g(x0 + rate) - g(x0),
 * lies above a concave and below a convex g and is exact for at most one present parent; the chord from "none" to
 * "all" lies on the other side. Either is a sum over parents, so its exponential is a product of factors (compare
 * Jaakkola & Jordan, Variational probabilistic inference and the QMR-DT network, JAIR 10 (1999), whose tangent bound
 * is used where there is no leak to start from).
 *
 * Requires: two-state sources (no tried remedies); a mechanism may be named only together with everything below it.
 */
export function relaxNetwork(network: MaxNetwork, relaxed: ReadonlySet<number>, side: BoundSide): MaxNetwork {
  const sources = network.sources.map((source): Source => ({
    ...source,
    weights: Float64Array.from(source.weights),
  }));
  let logConstant = network.logConstant;
  const linksOf = new Map<number, MaxLink[]>();
  for (const link of network.links)
    linksOf.set(link.auxiliary, [...(linksOf.get(link.auxiliary) ?? []), link]);
  const isFinding = (a: number) => (network.auxiliaries[a]?.settles ?? -1) < 0;
  // Findings first: they leave factors on mechanisms, which close the mechanisms' own auxiliaries.
  for (const a of [...relaxed].sort((x, y) => Number(isFinding(y)) - Number(isFinding(x)))) {
    const auxiliary = network.auxiliaries[a];
    if (!auxiliary) continue;
    const closes = auxiliary.closes ?? sources[auxiliary.settles]?.weights ?? new Float64Array(0);
    const bound = auxiliary.states === 2 ? boundTwoStates : boundByExtremes;
    const { constant, factors } = bound(auxiliary, closes, linksOf.get(a) ?? [], side);
    logConstant += constant;
    for (const [source, log] of factors) {
      const weights = sources[source]?.weights;
      if (weights) weights[1] = (weights[1] ?? 0) * Math.exp(log);
    }
  }
  return withoutAccumulators({ ...network, sources, logConstant }, relaxed);
}

interface FactorBound {
  /** Natural logs. */
  readonly constant: number;
  readonly factors: ReadonlyMap<number, number>;
}

function boundTwoStates(
  auxiliary: Accumulator,
  closes: Float64Array,
  links: readonly MaxLink[],
  side: BoundSide,
): FactorBound {
  const [a = 0, b = 0] = closes;
  const total = (row: ArrayLike<number>, at: number) => (row[at] ?? 0) + (row[at + 1] ?? 0);
  const rateOf = (silent: number, all: number) =>
    Math.min(LARGEST_RATE, all > 0 ? -Math.log(silent / all) : 0);
  const start = rateOf(auxiliary.start[0] ?? 0, total(auxiliary.start, 0));
  const parents = links.map(({ source, rows }) => ({
    source,
    log: Math.log(total(rows, 2)),
    rate: Math.max(0, rateOf(rows[2] ?? 0, total(rows, 2))),
  }));
  const end = parents.reduce((sum, parent) => sum + parent.rate, start);
  const g = (x: number) => Math.log(Math.max(0, b + (a - b) * Math.exp(-x)));
  const startLog = Math.log(total(auxiliary.start, 0));
  const isConcave = a < b;
  const usesSteps = isConcave === (side === 'upper');
  const factors = new Map<number, number>();
  if (usesSteps && g(start) > -Infinity) {
    for (const { source, log, rate } of parents) factors.set(source, log + g(start + rate) - g(start));
    return { constant: startLog + g(start), factors };
  }
  if (usesSteps) {
    // No leak and a = 0: the tangent at a middling rate.
    const at = Math.max(1e-6, end / Math.max(1, parents.length));
    const slope = 1 / Math.expm1(at);
    for (const { source, log, rate } of parents) factors.set(source, log + slope * rate);
    return { constant: startLog + g(at) - slope * at, factors };
  }
  const slope = end > start ? (g(end) - g(start)) / (end - start) : 0;
  // Without a leak the chord starts at -Infinity: nothing better than 0 is claimed.
  if (g(start) === -Infinity) return { constant: -Infinity, factors };
  for (const { source, log, rate } of parents) factors.set(source, log + slope * rate);
  return { constant: startLog + g(start), factors };
}

/** A soft finding of several levels: the least or the greatest likelihood, whatever the level. */
function boundByExtremes(
  auxiliary: Accumulator,
  closes: Float64Array,
  links: readonly MaxLink[],
  side: BoundSide,
): FactorBound {
  const sumFrom = (row: Float64Array, at: number) =>
    row.subarray(at, at + auxiliary.states).reduce((sum, value) => sum + value, 0);
  const extreme = side === 'lower' ? Math.min(...closes) : Math.max(...closes);
  return {
    constant: Math.log(extreme) + Math.log(sumFrom(auxiliary.start, 0)),
    factors: new Map(links.map(({ source, rows }) => [source, Math.log(sumFrom(rows, auxiliary.states))])),
  };
}

/** Drops auxiliaries and renumbers; a mechanism whose auxiliary is dropped becomes a source of weight 1. */
function withoutAccumulators(network: MaxNetwork, dropped: ReadonlySet<number>): MaxNetwork {
  const number = new Int32Array(network.auxiliaries.length).fill(-1);
  let next = 0;
  network.auxiliaries.forEach((_, a) => {
    if (!dropped.has(a)) number[a] = next++;
  });
  return {
    sources: network.sources.map((source) =>
      source.settledBy >= 0 && dropped.has(source.settledBy)
        ? { ...source, settledBy: -1, weights: Float64Array.of(1, 0) }
        : { ...source, settledBy: source.settledBy < 0 ? -1 : (number[source.settledBy] ?? -1) },
    ),
    auxiliaries: network.auxiliaries.filter((_, a) => !dropped.has(a)),
    links: network.links
      .filter((link) => !dropped.has(link.auxiliary))
      .map((link) => ({ ...link, auxiliary: number[link.auxiliary] ?? -1 })),
    logConstant: network.logConstant,
    findings: null,
  };
}
