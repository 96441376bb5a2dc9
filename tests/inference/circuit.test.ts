import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Arena } from '../../src-core/inference/circuit/arena.ts';
import { compileCircuit } from '../../src-core/inference/circuit/compile-circuit.ts';
import { eliminationOrder } from '../../src-core/inference/circuit/elimination-order.ts';
import {
  differentiate,
  evaluate,
  partOfSource,
  partValue,
  withWeights,
} from '../../src-core/inference/circuit/run-circuit.ts';
import { powerOfTwoBelow, stateScales } from '../../src-core/inference/circuit/state-scales.ts';
import { WhatIf } from '../../src-core/inference/circuit/what-if.ts';
import { encode } from '../../src-core/inference/network/encode.ts';
import type { MaxNetwork } from '../../src-core/inference/network/max-network.ts';
import { bruteForce } from './brute-force.ts';
import { generator, randomCases, type RandomCase } from './random-model.ts';

const CASES = randomCases({ causes: 6, mechanisms: 4, observations: 7, evidenceShare: 0.9 });

function run({ model, priors, evidence }: RandomCase) {
  const network = encode(model, priors, evidence);
  const circuit = compileCircuit(network);
  if (!circuit) throw new Error('too wide');
  const log = evaluate(circuit);
  fc.pre(log > -30);
  differentiate(circuit);
  return { network, circuit, log };
}

/** Probability of the evidence with other priors, by enumeration. */
const truth = ({ model, evidence }: RandomCase, priors: readonly number[]) =>
  bruteForce(model, priors, evidence).evidence;

describe('a what-if run of an evaluated network', () => {
  it('gives the evidence under other priors what enumeration gives it, for few causes as for all, and again', () => {
    fc.assert(
      fc.property(CASES, fc.integer({ min: 1, max: 1e9 }), (each, seed) => {
        const { network, circuit } = run(each);
        const whatIf = new WhatIf(circuit);
        const random = generator(seed);
        const before = truth(each, each.priors);
        fc.pre(before > 1e-9);
        for (let round = 0; round < 4; round++) {
          const priors = each.priors.map((prior) => (random() < 0.5 ? random() * 0.9 : prior));
          priors.forEach((prior, cause) => {
            if (prior === each.priors[cause] && random() < 0.7) return;
            const weights = whatIf.change(cause);
            const { factors = [] } = network.sources[cause] ?? {};
            weights[0] = (1 - prior) * (factors[0] ?? 1);
            weights[1] = prior * (factors[1] ?? 1);
          });
          const expected = truth(each, priors) / before;
          expect(whatIf.ratio() / expected).toBeCloseTo(1, 8);
        }
        // Nothing changed, nothing moved: the runs before have left no trace.
        expect(whatIf.ratio()).toBe(1);
      }),
      { numRuns: 150, seed: 61 },
    );
  });

  it('says how likely the rest is without a cause that the stored run takes for certain', () => {
    fc.assert(
      fc.property(CASES, (each) => {
        const certain = { ...each, priors: each.priors.map((prior, cause) => (cause === 0 ? 1 : prior)) };
        const { network, circuit } = run(certain);
        const whatIf = new WhatIf(circuit);
        const stored = whatIf.value();
        const weights = whatIf.change(0);
        weights[0] = network.sources[0]?.factors[0] ?? 1;
        weights[1] = 0;
        const absent = truth(
          each,
          certain.priors.map((prior, cause) => (cause === 0 ? 0 : prior)),
        );
        expect((whatIf.value() / stored) * truth(each, certain.priors)).toBeCloseTo(absent, 9);
      }),
      { numRuns: 80, seed: 62 },
    );
  });
});

describe('derivatives of the evidence', () => {
  it('are what a weight’s change makes of it: the evidence is linear in every weight', () => {
    let compared = 0;
    fc.assert(
      fc.property(CASES, (each) => {
        const { circuit } = run(each);
        each.priors.forEach((_, source) => {
          const part = partOfSource(circuit, source);
          if (part < 0) return;
          const value = partValue(circuit, part);
          [0, 1].forEach((state) => {
            const weights = circuit.weights[source];
            const slope = circuit.weightDerivatives[source]?.[state] ?? NaN;
            if (!weights) return;
            const other = weights.with(state, (weights[state] ?? 0) + 0.25);
            const changed = withWeights(circuit, source, other, () => partValue(circuit, part));
            expect((changed - value) / value).toBeCloseTo((0.25 * slope) / value, 8);
            compared++;
          });
          expect(partValue(circuit, part)).toBe(value);
        });
      }),
      { numRuns: 100, seed: 63 },
    );
    expect(compared).toBeGreaterThan(200);
  });
});

/** Cost of an order by playing it on plain sets of neighbours. */
function played(network: MaxNetwork, variables: readonly number[]): { cost: number; width: number } {
  const base = network.auxiliaries.length;
  const size = (v: number) =>
    (v < base ? network.auxiliaries[v]?.states : network.sources[v - base]?.weights.length) ?? 1;
  const near = new Map(variables.map((v) => [v, new Set<number>()]));
  const join = (a: number, b: number) => {
    if (a === b || !near.has(a) || !near.has(b)) return;
    near.get(a)?.add(b);
    near.get(b)?.add(a);
  };
  network.sources.forEach(({ settledBy }, s) => settledBy >= 0 && join(base + s, settledBy));
  for (const { source, auxiliary } of network.links) join(base + source, auxiliary);
  let cost = 0;
  let width = 0;
  for (const v of variables) {
    const around = [...(near.get(v) ?? [])];
    const entries = around.reduce((product, w) => product * size(w), size(v));
    cost += entries;
    width = Math.max(width, Math.log2(entries));
    for (const a of around) {
      for (const b of around) join(a, b);
      near.get(a)?.delete(v);
    }
    near.delete(v);
  }
  return { cost, width };
}

describe('the order in which variables are summed out', () => {
  it('takes each once, a mechanism only after what settles it, and tells its true cost and width', () => {
    fc.assert(
      fc.property(
        randomCases({ causes: 40, mechanisms: 12, observations: 30, evidenceShare: 0.9 }),
        ({ model, priors, evidence }) => {
          const network = encode(model, priors, evidence);
          const { variables, cost, log2Width } = eliminationOrder(network);
          expect(new Set(variables).size).toBe(variables.length);
          const base = network.auxiliaries.length;
          for (let a = 0; a < base; a++) expect(variables).toContain(a);
          network.sources.forEach(({ kind, settledBy }, s) => {
            if (kind === 'mechanism')
              expect(variables.indexOf(base + s)).toBeGreaterThan(variables.indexOf(settledBy));
          });
          const plain = played(network, variables);
          expect(cost / plain.cost).toBeCloseTo(1, 9);
          expect(log2Width).toBeCloseTo(plain.width, 9);
        },
      ),
      { numRuns: 40, seed: 64 },
    );
  });
});

describe('weights scaled by powers of two', () => {
  it('keep every digit: each scale is a power of two, not above what it scales', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-300, max: 8, noNaN: true }), (value) => {
        const scale = powerOfTwoBelow(value);
        expect(Number.isInteger(Math.log2(scale))).toBe(true);
        expect(scale).toBeLessThanOrEqual(Math.min(1, value));
        expect(scale).toBeGreaterThan(Math.min(1, value) / 2);
      }),
    );
    expect([0, NaN, -1, 5e-324].map(powerOfTwoBelow)).toEqual([1, 1, 1, 2 ** -1000]);
  });

  it('are one a state, and 1 where nothing was raised', () => {
    fc.assert(
      fc.property(CASES, ({ model, priors, evidence }) => {
        const network = encode(model, priors, evidence);
        stateScales(network).forEach((scales, a) => {
          expect(scales).toHaveLength(network.auxiliaries[a]?.states ?? -1);
          expect(scales[0]).toBe(1);
          for (const scale of scales) expect(Number.isInteger(Math.log2(scale))).toBe(true);
        });
      }),
      { numRuns: 50, seed: 65 },
    );
  });
});

describe('arrays cut out of an arena', () => {
  it('are empty of what others write, however many and large they are', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 6000 }), { maxLength: 12 }), (lengths) => {
        const arena = new Arena();
        const cut = lengths.map((length, k) => {
          const some = k % 2 === 0 ? arena.floats(length) : arena.ints(length);
          expect(some).toHaveLength(length);
          expect(some.every((value) => value === 0)).toBe(true);
          return some.fill(k + 1);
        });
        cut.forEach((some, k) => expect(some.every((value) => value === k + 1)).toBe(true));
      }),
      { numRuns: 60, seed: 66 },
    );
  });
});
