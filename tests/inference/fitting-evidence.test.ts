import fc from 'fast-check';
import { expect, it } from 'vitest';
import { causeProbability } from '../../src-core/inference/queries/calibrated-network.ts';
import { propagateWhatFits } from '../../src-core/inference/queries/fitting-evidence.ts';
import { bruteForce } from './brute-force.ts';
import { randomCases } from './random-model.ts';

const LIMITS = { tableEntries: 8, terms: 80 };
const SIZE = { causes: 7, mechanisms: 4, observations: 8, evidenceShare: 0.9 };

it('leaves out findings until the rest fits, keeps those it must, and is exact for what is left', () => {
  let narrowed = 0;
  let leftOut = 0;
  fc.assert(
    fc.property(randomCases(SIZE), ({ model, priors, evidence }) => {
      const kept = evidence.slice(0, 1).map(({ observation }) => observation);
      const fitting = propagateWhatFits(model, priors, evidence, { limits: LIMITS }, { kept });
      if (!fitting) return;
      const { network, setAside } = fitting;
      expect(setAside).not.toContain(kept[0]);
      // What is left and what was left out is all there was.
      expect([...fitting.evidence.map(({ observation }) => observation), ...setAside].sort()).toEqual(
        evidence.map(({ observation }) => observation).sort(),
      );
      const truth = bruteForce(model, priors, fitting.evidence);
      fc.pre(truth.evidence > 1e-8);
      expect(network.logEvidence).toBeCloseTo(Math.log(truth.evidence), 9);
      truth.causes.forEach((p, cause) => {
        const present = causeProbability(network, cause);
        expect(present / (present + causeProbability(network, cause, false))).toBeCloseTo(p, 9);
      });
      if (setAside.length === 0) return;
      narrowed += 1;
      leftOut += setAside.length;
      const turned = propagateWhatFits(model, priors, evidence.toReversed(), { limits: LIMITS }, { kept });
      expect(turned?.setAside).toEqual(setAside);
    }),
    { numRuns: 600, seed: 43 },
  );
  expect(narrowed).toBeGreaterThan(50);
  // One that left out everything would pass the above.
  expect(leftOut / narrowed).toBeLessThan(3);
});

it('leaves out nothing where all of it fits', () => {
  fc.assert(
    fc.property(randomCases(SIZE), ({ model, priors, evidence }) => {
      const fitting = propagateWhatFits(model, priors, evidence, {}, { kept: [] });
      expect(fitting?.setAside).toEqual([]);
      expect(fitting?.evidence).toBe(evidence);
    }),
    { numRuns: 50, seed: 44 },
  );
});
