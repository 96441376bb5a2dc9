import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type {
  CaseHistory,
  RemedyOutcome,
  TriedRemedy,
} from '../../src-core/inference/network/case-history.ts';
import { repairProbability, chancesToCure } from '../../src-core/inference/queries/repair-probability.ts';
import type { GraphEvidence } from '../../src-core/inference/network/graph-model.ts';
import { infer } from '../../src-core/inference/queries/infer.ts';
import { bruteForceTwin } from './brute-force-twin.ts';
import { generator, randomCase, type RandomCase } from './random-model.ts';

const OUTCOMES: readonly RemedyOutcome[] = ['cured', 'better', 'not-cured', 'not-cured'];

interface TwinCase extends RandomCase {
  readonly history: CaseHistory;
  readonly next: TriedRemedy['removal'];
}

function twinCase(seed: number, maxTries: number): TwinCase | null {
  const each = randomCase(seed, {
    causes: 4,
    mechanisms: 2,
    observations: 4,
    maxLevels: 3,
    evidenceShare: 0.8,
  });
  const random = generator((seed % 99991) + 1);
  const complaint = each.evidence
    .filter((finding) => (finding.kind === 'level' ? finding.level > 0 : finding.likelihood[0] === 0))
    .map((finding) => finding.observation)
    .slice(0, 2);
  if (complaint.length === 0) return null;
  const removal = () =>
    each.model.causes
      .map((_, cause) => ({ cause, probability: random() < 0.3 ? 1 : random() }))
      .filter(() => random() < 0.6);
  const tries = Array.from({ length: Math.floor(random() * (maxTries + 1)) }, () => ({
    removal: removal(),
    outcome: OUTCOMES[Math.floor(random() * OUTCOMES.length)] ?? 'not-cured',
  }));
  const seenAfterTries = new Map<number, number>();
  for (const { observation } of each.evidence) {
    if (complaint.includes(observation) || random() < 0.7) continue;
    seenAfterTries.set(observation, Math.floor(random() * (tries.length + 1)));
  }
  return { ...each, history: { complaint, tries, seenAfterTries }, next: removal() };
}

function cureTruth({ model, priors, evidence, history, next }: TwinCase) {
  const before = bruteForceTwin(model, priors, evidence, history);
  const after = bruteForceTwin(model, priors, evidence, {
    ...history,
    tries: [...history.tries, { removal: next, outcome: 'cured' }],
  });
  return { before, chance: after.goneNow / before.evidence };
}

const seeds = fc.integer({ min: 1, max: 2 ** 31 - 2 });

describe('repairProbability', () => {
  it('equals enumeration of all noise variables when nothing was tried', () => {
    let checked = 0;
    fc.assert(
      fc.property(seeds, (seed) => {
        const each = twinCase(seed, 0);
        fc.pre(each !== null);
        const { before, chance } = cureTruth(each);
        fc.pre(before.evidence > 1e-9);
        const found = repairProbability(
          each.model,
          each.priors,
          each.evidence,
          each.history.complaint,
          each.next,
          each,
        );
        if (found.kind !== 'ok' || !found.exact) throw new Error('expected an exact answer');
        expect(found.probability).toBeCloseTo(chance, 9);
        checked++;
      }),
      { numRuns: 300, seed: 3 },
    );
    expect(checked).toBeGreaterThan(200);
  });

  it('equals enumeration after up to three tries, as do posteriors and what is left', () => {
    let checked = 0;
    fc.assert(
      fc.property(seeds, (seed) => {
        const each = twinCase(seed, 3);
        fc.pre(each !== null);
        const { before, chance } = cureTruth(each);
        fc.pre(before.evidence > 1e-9);
        const { model, priors, evidence, history } = each;
        const posterior = infer(model, priors, evidence, { history });
        if (posterior.kind !== 'ok' || !posterior.exact) throw new Error('expected an exact answer');
        expect(Math.exp(posterior.logEvidence) / before.evidence).toBeCloseTo(1, 9);
        before.causes.forEach((p, k) => expect(posterior.causes[k]).toBeCloseTo(p / before.evidence, 9));
        before.remaining.forEach((p, k) =>
          expect(posterior.remainingCauses[k]).toBeCloseTo(p / before.evidence, 9),
        );
        const found = repairProbability(model, priors, evidence, history.complaint, each.next, { history });
        if (found.kind !== 'ok' || !found.exact) throw new Error('expected an exact answer');
        expect(found.probability).toBeCloseTo(chance, 9);
        checked++;
      }),
      { numRuns: 300, seed: 5 },
    );
    expect(checked).toBeGreaterThan(150);
  });

  it('gives many removals the same chances as one by one', () => {
    const each = twinCase(77, 2) ?? twinCase(78, 2);
    if (!each) throw new Error('no complaint in this case');
    const { model, priors, evidence, history } = each;
    const removals = [each.next, [], model.causes.map((_, cause) => ({ cause, probability: 1 }))];
    const together = chancesToCure(model, priors, evidence, history.complaint, removals, { history });
    const apart = removals.map((one) =>
      repairProbability(model, priors, evidence, history.complaint, one, { history }),
    );
    expect(together).toEqual(apart);
  });

  it('is zero when nothing is removed', () => {
    const model = {
      causes: [{ id: 'a', prior: 0.2 }],
      mechanisms: [],
      observations: [
        {
          id: 'o',
          leak: [0.9, 0.1],
          links: [{ from: { kind: 'cause' as const, index: 0 }, levels: [0.2, 0.8] }],
        },
      ],
    };
    const evidence: GraphEvidence[] = [{ observation: 0, kind: 'level', level: 1 }];
    expect(repairProbability(model, [0.2], evidence, [0], [])).toEqual({
      kind: 'ok',
      exact: true,
      probability: 0,
    });
  });

  it('refuses a complaint that is not in evidence', () => {
    const each = twinCase(77, 0) ?? twinCase(78, 0);
    if (!each) throw new Error('no complaint in this case');
    expect(() => repairProbability(each.model, each.priors, [], each.history.complaint, [])).toThrow(
      /must be in evidence/,
    );
  });
});
