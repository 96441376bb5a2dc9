import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { GraphModel } from '../../src-core/inference/graph-model.ts';
import { infer, type ExactPosterior } from '../../src-core/inference/infer.ts';
import { bruteForce } from './brute-force.ts';
import { randomCases, type RandomCase } from './random-model.ts';

const SMALL = { causes: 6, mechanisms: 3, observations: 6 };

function exact({ model, priors, evidence }: RandomCase): ExactPosterior | null {
  const posterior = infer(model, priors, evidence);
  if (posterior.kind === 'impossible-evidence') return null;
  if (!posterior.exact) throw new Error('expected an exact answer');
  return posterior;
}

describe('infer', () => {
  it('equals enumeration on 1000 random networks', () => {
    fc.assert(
      fc.property(randomCases(SMALL), (each) => {
        const posterior = exact(each);
        const truth = bruteForce(each.model, each.priors, each.evidence);
        if (!posterior) {
          expect(truth.evidence).toBeLessThan(1e-15);
          return;
        }
        // Enumeration subtracts cumulative products, so it is the less precise of the two for rare evidence.
        fc.pre(truth.evidence > 1e-6);
        expect(Math.exp(posterior.logEvidence) / truth.evidence).toBeCloseTo(1, 9);
        truth.causes.forEach((p, k) => expect(posterior.causes[k]).toBeCloseTo(p, 9));
        truth.mechanisms.forEach((p, k) => expect(posterior.mechanisms[k]).toBeCloseTo(p, 9));
      }),
      { numRuns: 1000, seed: 11 },
    );
  });
});
