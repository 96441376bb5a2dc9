import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { propagate } from '../../src-core/inference/queries/calibrated-network.ts';
import { PosteriorCache } from '../../src-core/inference/queries/posterior-cache.ts';
import { conflict } from '../../src-core/inference/explain/conflict.ts';
import { explainWeights } from '../../src-core/inference/explain/explain-weights.ts';
import { evidenceWithoutEach } from '../../src-core/inference/queries/without-each.ts';
import { bruteForce } from './brute-force.ts';
import { randomCases } from './random-model.ts';

const SIZE = { causes: 5, mechanisms: 3, observations: 6, evidenceShare: 0.8 };

describe('evidenceWithoutEach', () => {
  it('equals enumeration with each finding left out in turn', () => {
    let checked = 0;
    fc.assert(
      fc.property(randomCases(SIZE), ({ model, priors, evidence }) => {
        const found = evidenceWithoutEach(model, priors, evidence);
        if (!found) throw new Error('too wide');
        const whole = bruteForce(model, priors, evidence).evidence;
        expect(Math.exp(found.whole) / whole || 1).toBeCloseTo(1, 9);
        if (whole === 0) return;
        evidence.forEach((_, left) => {
          const rest = evidence.filter((__, k) => k !== left);
          const truth = bruteForce(model, priors, rest).evidence;
          expect(Math.exp(found.without[left] ?? NaN) / truth).toBeCloseTo(1, 9);
          checked++;
        });
      }),
      { numRuns: 200, seed: 81 },
    );
    expect(checked).toBeGreaterThan(400);
  });
});

describe('PosteriorCache', () => {
  it('never changes an answer: weights and conflict are the same with a memory that has seen other cases', () => {
    fc.assert(
      fc.property(randomCases(SIZE), ({ model, priors, evidence }) => {
        const memory = new PosteriorCache(model);
        const halved = priors.map((prior) => prior / 2);
        for (const [p, e] of [
          [priors, evidence.slice(0, -1)],
          [halved, evidence],
          [priors, [...evidence].reverse()],
        ] as const) {
          memory.logOdds(p, e);
          const plain = explainWeights(model, p, e, { shapleyUpTo: 0 });
          expect(explainWeights(model, p, e, { shapleyUpTo: 0, memory })).toEqual(plain);
          expect(conflict(model, p, e, { memory })).toEqual(conflict(model, p, e));
        }
      }),
      { numRuns: 60, seed: 82 },
    );
  });

  it('gives the same to the last bit, in whatever order the findings were made that it learnt from', () => {
    fc.assert(
      fc.property(randomCases(SIZE), ({ model, priors, evidence }) => {
        const memory = new PosteriorCache(model);
        const backwards = evidence.toReversed();
        memory.logOdds(priors, backwards);
        const found = explainWeights(model, priors, evidence, { shapleyUpTo: 0, memory });
        const alone = new PosteriorCache(model);
        expect(found).toEqual(explainWeights(model, priors, evidence, { shapleyUpTo: 0, memory: alone }));
        expect(memory.logEvidence(priors, evidence)).toBe(alone.logEvidence(priors, evidence));
      }),
      { numRuns: 60, seed: 83 },
    );
  });

  it('passes over a network with tried remedies, which says more than the findings', () => {
    const model = {
      causes: [{ id: 'c', prior: 0.3 }],
      mechanisms: [],
      observations: [
        {
          id: 'o',
          leak: [0.9, 0.1],
          links: [{ from: { kind: 'cause' as const, index: 0 }, levels: [0.2, 0.8] }],
        },
      ],
    };
    const evidence = [{ observation: 0, kind: 'level' as const, level: 1 }];
    const removal = [{ cause: 0, probability: 1 }];
    const history = { complaint: [0], tries: [{ removal, outcome: 'not-cured' as const }] };
    const memory = new PosteriorCache(model);
    memory.take([0.3], evidence, propagate(model, [0.3], evidence, { history }));
    const truth = bruteForce(model, [0.3], evidence).evidence;
    expect(Math.exp(memory.logEvidence([0.3], evidence))).toBeCloseTo(truth, 12);
  });
});
