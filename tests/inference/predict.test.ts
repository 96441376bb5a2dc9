import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { predict } from '../../src-core/inference/queries/predict.ts';
import { bruteForce } from './brute-force.ts';
import { bruteForceTwin } from './brute-force-twin.ts';
import { randomCases } from './random-model.ts';

describe('predict', () => {
  it('equals enumeration for every open observation of 500 random networks', () => {
    fc.assert(
      fc.property(randomCases({ causes: 6, mechanisms: 3, observations: 7, evidenceShare: 0.5 }), (each) => {
        const truth = bruteForce(each.model, each.priors, each.evidence);
        fc.pre(truth.evidence > 1e-6);
        const found = predict(each.model, each.priors, each.evidence);
        if (found.kind !== 'ok') throw new Error(found.kind);
        found.levels.forEach((levels, index) => {
          expect(levels === null).toBe(each.evidence.some((finding) => finding.observation === index));
          levels?.forEach((p, level) => expect(p).toBeCloseTo(truth.levels[index]?.[level] ?? NaN, 9));
        });
      }),
      { numRuns: 500, seed: 23 },
    );
  });

  it('speaks of the machine as it is after a remedy that did not help', () => {
    fc.assert(
      fc.property(
        randomCases({ causes: 4, mechanisms: 2, observations: 4, maxLevels: 3, evidenceShare: 0.5 }),
        (each) => {
          const complaint = each.evidence.find(
            (finding) => finding.kind === 'level' && finding.level > 0,
          )?.observation;
          fc.pre(complaint !== undefined);
          const removal = each.model.causes.map((_, cause) => ({ cause, probability: 0.3 + 0.2 * cause }));
          const history = { complaint: [complaint], tries: [{ removal, outcome: 'not-cured' as const }] };
          const truth = bruteForceTwin(each.model, each.priors, each.evidence, history);
          fc.pre(truth.evidence > 1e-6);
          const found = predict(each.model, each.priors, each.evidence, { history });
          if (found.kind !== 'ok') throw new Error(found.kind);
          found.levels.forEach((levels, index) => {
            if (levels) expect(levels[0]).toBeCloseTo((truth.noneNow[index] ?? 0) / truth.evidence, 9);
          });
        },
      ),
      { numRuns: 100, seed: 29 },
    );
  });
});
