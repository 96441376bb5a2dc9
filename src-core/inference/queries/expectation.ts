import type { CalibratedNetwork } from './calibrated-network.ts';
import type { GraphModel } from '../network/graph-model.ts';
import { WhatIf } from '../circuit/what-if.ts';

/** One network that an expectation is summed over. */
export interface ProductRun {
  readonly whatIf: WhatIf;
  readonly mechanismSource: ReadonlyMap<number, number>;
  /** Runs and gives this network's part of the expectation. */
  run(): number;
}

type Factor = readonly [index: number, factor: number];

/**
 * Exact expectations of products over parents: E[product over alive parents of factor]. Such a product only
 * rescales weights, so each takes one partial run of the circuit. A parent mechanism that the evidence does not
 * reach is summed over here: with factor F it is F + (1 - F) P(off), and P(off) is itself a product over its
 * causes.
 */
export class Expectation {
  private readonly model: GraphModel;
  private readonly runs: readonly ProductRun[];
  private readonly factors = new Map<number, number>();

  constructor(model: GraphModel, runs: readonly ProductRun[]) {
    this.model = model;
    this.runs = runs;
  }

  /** Parents of an observation that are summed over one by one: two runs for the first, twice as many for each further one. */
  unreachedMechanisms(observation: number): number {
    const links = this.model.observations[observation]?.links ?? [];
    return links.filter(
      ({ from }) =>
        from.kind === 'mechanism' && this.runs.some((run) => !run.mechanismSource.has(from.index)),
    ).length;
  }

  /** E[product of factors of alive causes and of going mechanisms, where those of `off` are off]. */
  product(causes: readonly Factor[], mechanisms: readonly Factor[], off: readonly number[] = []): number {
    let sum = 0;
    for (const run of this.runs) sum += this.productIn(run, causes, mechanisms, off);
    return sum;
  }

  private productIn(
    run: ProductRun,
    causes: readonly Factor[],
    mechanisms: readonly Factor[],
    off: readonly number[],
  ): number {
    const reached = mechanisms.filter(([mechanism]) => run.mechanismSource.has(mechanism));
    const unreached = mechanisms.filter(([mechanism]) => !run.mechanismSource.has(mechanism));
    let sum = 0;
    for (let choice = 0; choice < 2 ** unreached.length; choice++) {
      let weight = 1;
      const allOff = [...off];
      unreached.forEach(([mechanism, factor], k) => {
        const mustBeOff = ((choice >> k) & 1) === 1;
        weight *= mustBeOff ? 1 - factor : factor;
        if (mustBeOff) allOff.push(mechanism);
      });
      if (weight > 0) sum += weight * this.single(run, causes, reached, allOff);
    }
    return sum;
  }

  private single(
    run: ProductRun,
    causes: readonly Factor[],
    mechanisms: readonly Factor[],
    off: readonly number[],
  ): number {
    let constant = 1;
    this.factors.clear();
    for (const [cause, factor] of causes) this.multiply(cause, factor);
    for (const mechanism of off) {
      const gate = this.model.mechanisms[mechanism];
      constant *= 1 - (gate?.leak ?? 0);
      for (const link of gate?.links ?? []) this.multiply(link.cause, 1 - link.probability);
    }
    for (const [cause, factor] of this.factors) scaleAlive(run.whatIf.change(cause), factor);
    for (const [mechanism, factor] of mechanisms) {
      scaleAlive(run.whatIf.change(run.mechanismSource.get(mechanism) ?? -1), factor);
    }
    return constant * run.run();
  }

  private multiply(cause: number, factor: number): void {
    this.factors.set(cause, (this.factors.get(cause) ?? 1) * factor);
  }
}

/** Expectation given everything known, in the world after all tries. */
export function networkExpectation(network: CalibratedNetwork): Expectation {
  const runs = network.branches.map(({ circuit, mechanismSource, share }): ProductRun => {
    const whatIf = new WhatIf(circuit);
    return { whatIf, mechanismSource, run: () => share * whatIf.ratio() };
  });
  return new Expectation(network.model, runs);
}

/** P(observation at most at each level), from `expectation`; the last entry is the expectation of 1. */
export function atMostLevels(model: GraphModel, expectation: Expectation, observation: number): Float64Array {
  const gate = model.observations[observation];
  const count = gate?.leak.length ?? 0;
  const atMost = new Float64Array(count);
  for (let level = 0; level < count; level++) {
    const isLast = level === count - 1;
    const upTo = (levels: readonly number[]) =>
      isLast
        ? 1
        : Math.min(
            1,
            levels.slice(0, level + 1).reduce((sum, p) => sum + p, 0),
          );
    const causes: Factor[] = [];
    const mechanisms: Factor[] = [];
    for (const link of isLast ? [] : (gate?.links ?? [])) {
      (link.from.kind === 'cause' ? causes : mechanisms).push([link.from.index, upTo(link.levels)]);
    }
    atMost[level] = upTo(gate?.leak ?? []) * expectation.product(causes, mechanisms);
  }
  return atMost;
}

/** Scales the weight of the last state, the one alive in the world after all tries. */
function scaleAlive(weights: Float64Array, factor: number): void {
  const alive = weights.length - 1;
  weights[alive] = (weights[alive] ?? 0) * factor;
}
