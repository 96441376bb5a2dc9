import type { Belief, BeliefBranch } from './belief.ts';
import type { GraphModel } from './graph-model.ts';
import { WhatIf } from './what-if.ts';

/**
 * Exact expectations of products over parents, given the evidence: E[product over alive parents of factor].
 * Such a product only rescales weights, so each takes one partial run of the circuit. A parent mechanism that
 * the evidence does not reach is summed over here: with factor F it is F + (1 - F) P(off), and P(off) is itself a
 * product over its causes.
 */
export class Expectation {
  private readonly belief: Belief;
  private readonly runs: readonly { readonly branch: BeliefBranch; readonly whatIf: WhatIf }[];
  private readonly factors = new Map<number, number>();

  constructor(belief: Belief) {
    this.belief = belief;
    this.runs = belief.branches.map((branch) => ({ branch, whatIf: new WhatIf(branch.circuit) }));
  }

  /** Probability that an unobserved mechanism is off in the world after all tries. */
  mechanismOff(mechanism: number): number {
    return this.average((branch, whatIf) => this.product(branch, whatIf, [], [], [mechanism]));
  }

  /**
   * E[product of `causeFactors` of alive causes and `mechanismFactors` of going mechanisms], in the world after
   * all tries.
   */
  product(
    branch: BeliefBranch,
    whatIf: WhatIf,
    causeFactors: readonly (readonly [cause: number, factor: number])[],
    mechanismFactors: readonly (readonly [mechanism: number, factor: number])[],
    offMechanisms: readonly number[] = [],
  ): number {
    const reached = mechanismFactors.filter(([mechanism]) => branch.mechanismSource.has(mechanism));
    const unreached = mechanismFactors.filter(([mechanism]) => !branch.mechanismSource.has(mechanism));
    let sum = 0;
    for (let choice = 0; choice < 2 ** unreached.length; choice++) {
      let weight = 1;
      const off = [...offMechanisms];
      unreached.forEach(([mechanism, factor], k) => {
        const mustBeOff = ((choice >> k) & 1) === 1;
        weight *= mustBeOff ? 1 - factor : factor;
        if (mustBeOff) off.push(mechanism);
      });
      if (weight > 0) sum += weight * this.single(branch, whatIf, causeFactors, reached, off);
    }
    return sum;
  }

  average(value: (branch: BeliefBranch, whatIf: WhatIf) => number): number {
    let sum = 0;
    for (const { branch, whatIf } of this.runs) sum += branch.share * value(branch, whatIf);
    return sum;
  }

  private single(
    branch: BeliefBranch,
    whatIf: WhatIf,
    causeFactors: readonly (readonly [number, number])[],
    mechanismFactors: readonly (readonly [number, number])[],
    off: readonly number[],
  ): number {
    const { model } = this.belief;
    let constant = 1;
    this.factors.clear();
    for (const [cause, factor] of causeFactors) this.multiply(cause, factor);
    for (const mechanism of off) constant *= this.requireOff(model, mechanism);
    for (const [cause, factor] of this.factors) scaleLast(whatIf.change(cause), factor);
    for (const [mechanism, factor] of mechanismFactors) {
      scaleLast(whatIf.change(branch.mechanismSource.get(mechanism) ?? -1), factor);
    }
    return constant * whatIf.ratio();
  }

  private requireOff(model: GraphModel, mechanism: number): number {
    const gate = model.mechanisms[mechanism];
    for (const link of gate?.links ?? []) this.multiply(link.cause, 1 - link.probability);
    return 1 - (gate?.leak ?? 0);
  }

  private multiply(cause: number, factor: number): void {
    this.factors.set(cause, (this.factors.get(cause) ?? 1) * factor);
  }
}

function scaleLast(weights: Float64Array, factor: number): void {
  const last = weights.length - 1;
  weights[last] = (weights[last] ?? 0) * factor;
}
