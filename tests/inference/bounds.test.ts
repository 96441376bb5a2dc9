import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { infer } from '../../src-core/inference/queries/infer.ts';
import { bruteForce } from './brute-force.ts';
import { randomCases } from './random-model.ts';

const SLACK = 1e-12;

describe.each([
  ['hardly any room', { tableEntries: 2, terms: 12 }],
  ['some room', { tableEntries: 8, terms: 80 }],
])('infer with %s', (_, limits) => {
  it('brackets the truth whenever it is not exact', () => {
    let bounded = 0;
    let width = 0;
    let count = 0;
    fc.assert(
      fc.property(randomCases({ causes: 7, mechanisms: 4, observations: 8, evidenceShare: 0.9 }), (each) => {
        const truth = bruteForce(each.model, each.priors, each.evidence);
        fc.pre(truth.evidence > 1e-8);
        const found = infer(each.model, each.priors, each.evidence, { limits });
        if (found.kind !== 'ok') throw new Error(found.kind);
        if (found.exact) {
          truth.causes.forEach((p, k) => expect(found.causes[k]).toBeCloseTo(p, 9));
          return;
        }
        bounded++;
        const [low, high] = found.logEvidence;
        expect(Math.exp(low)).toBeLessThanOrEqual(truth.evidence * (1 + 1e-9));
        expect(Math.exp(high)).toBeGreaterThanOrEqual(truth.evidence * (1 - 1e-9));
        truth.causes.forEach((p, k) => {
          expect(found.causesLower[k]).toBeLessThanOrEqual(p + SLACK);
          expect(found.causesUpper[k]).toBeGreaterThanOrEqual(p - SLACK);
          width += (found.causesUpper[k] ?? 1) - (found.causesLower[k] ?? 0);
          count++;
        });
      }),
      { numRuns: 600, seed: 41 },
    );
    expect(bounded).toBeGreaterThan(50);
    // Bounds that always said "0 to 1" would pass the above.
    expect(width / count).toBeLessThan(0.8);
  });
});
