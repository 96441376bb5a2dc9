import { describe, expect, it } from 'vitest';
import type { GraphEvidence, GraphModel } from '../../src-core/inference/network/graph-model.ts';
import { infer } from '../../src-core/inference/queries/infer.ts';
import type { ExactPosterior } from '../../src-core/inference/queries/posterior.ts';
import { predict } from '../../src-core/inference/queries/predict.ts';
import { topExplanations } from '../../src-core/inference/explain/top-explanations.ts';
import { referenceValue } from './reference-record.ts';

function exact(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
): ExactPosterior {
  const posterior = infer(model, priors, evidence);
  if (posterior.kind !== 'ok' || !posterior.exact) throw new Error('expected an exact answer');
  return posterior;
}

describe('two-layer noisy-OR, inference.yaml two-layer-network and two-layer-posteriors', () => {
  const given = referenceValue<{
    prior: Record<string, number>;
    leak: Record<string, number>;
    link: Record<string, Record<string, number>>;
  }>('inference', 'two-layer-network');
  const sets = referenceValue<
    {
      set: string;
      evidence: 'none' | Record<string, 0 | 1>;
      p_evidence: number;
      posterior: Record<string, number>;
      p_none: number;
      finding: Record<string, number>;
      mpe: string[];
      p_mpe: number;
    }[]
  >('inference', 'two-layer-posteriors');
  const causes = Object.keys(given.prior);
  const findings = Object.keys(given.leak);
  const priors = Object.values(given.prior);
  const model: GraphModel = {
    causes: causes.map((id) => ({ id, prior: given.prior[id] ?? 0 })),
    mechanisms: [],
    observations: findings.map((id) => ({
      id,
      leak: [1 - (given.leak[id] ?? 0), given.leak[id] ?? 0],
      links: Object.entries(given.link[id] ?? {}).map(([cause, p]) => ({
        from: { kind: 'cause', index: causes.indexOf(cause) },
        levels: [1 - p, p],
      })),
    })),
  };

  describe.each(sets)(
    'set $set',
    ({ evidence: named, p_evidence, posterior, p_none, finding, mpe, p_mpe }) => {
      const evidence = Object.entries(named === 'none' ? {} : named).map(([id, level]): GraphEvidence => ({
        observation: findings.indexOf(id),
        kind: 'level',
        level,
      }));
      it('has the listed posteriors and probability of evidence', () => {
        const found = exact(model, priors, evidence);
        expect(Math.exp(found.logEvidence) / p_evidence).toBeCloseTo(1, 11);
        for (const [id, p] of Object.entries(posterior))
          expect(found.causes[causes.indexOf(id)]).toBeCloseTo(p, 12);
      });
      it('predicts the open findings', () => {
        const found = predict(model, priors, evidence);
        if (found.kind !== 'ok') throw new Error(found.kind);
        for (const [id, p] of Object.entries(finding)) {
          expect(found.levels[findings.indexOf(id)]?.[1]).toBeCloseTo(p, 12);
        }
      });
      it('has the listed most probable explanation', () => {
        const found = topExplanations(model, priors, evidence, 64, {
          among: causes.map((_, index) => index),
        });
        if (found.kind !== 'ok') throw new Error(found.kind);
        expect(found.isProven).toBe(true);
        expect(found.explanations[0]?.causes.map((index) => causes[index])).toEqual(mpe);
        expect(found.explanations[0]?.probability).toBeCloseTo(p_mpe, 12);
        expect(found.explanations.find((each) => each.causes.length === 0)?.probability).toBeCloseTo(
          p_none,
          12,
        );
        expect(found.coverage).toBeCloseTo(1, 12);
      });
    },
  );
});

describe('leaky noisy-OR, inference.yaml noisy-or-manual-example and noisy-or-henrion-diez', () => {
  const example = referenceValue<Record<'none' | 'cause1' | 'cause2' | 'both', number>>(
    'inference',
    'noisy-or-manual-example',
  );
  const both = referenceValue<{ both_present_from_henrion: number }>('inference', 'noisy-or-henrion-diez');
  const model: GraphModel = {
    causes: [
      { id: 'cause1', prior: 0.5 },
      { id: 'cause2', prior: 0.5 },
    ],
    mechanisms: [],
    observations: [
      {
        id: 'effect',
        leak: [0.9, 0.1],
        links: [
          { from: { kind: 'cause', index: 0 }, levels: [0.8, 0.2] },
          { from: { kind: 'cause', index: 1 }, levels: [0.6, 0.4] },
        ],
      },
    ],
  };
  it.each([
    ['none', [0, 0], example.none],
    ['cause1', [1, 0], example.cause1],
    ['cause2', [0, 1], example.cause2],
    ['both', [1, 1], example.both],
  ] as const)('gives the manual table for %s', (_, priors, expected) => {
    const found = exact(model, priors, [{ observation: 0, kind: 'level', level: 1 }]);
    expect(Math.exp(found.logEvidence)).toBeCloseTo(expected, 14);
    expect(example.both).toBe(both.both_present_from_henrion);
  });
});

describe('leaky noisy-MAX, inference.yaml noisy-max-network', () => {
  const given = referenceValue<{
    prior: { A: number[]; B: number[]; C: number[] };
    leak: number[];
    link: Record<string, number[]>;
  }>('inference', 'noisy-max-network');
  const table = referenceValue<{ A: number; B: number; C: number; p: number[] }[]>(
    'inference',
    'noisy-max-table',
  );
  const posteriors = referenceValue<
    { evidence: string; p_evidence: number; A_present: number; B: number[]; C_present: number }[]
  >('inference', 'noisy-max-posteriors');
  const link = (index: number, key: string) => ({
    from: { kind: 'cause' as const, index },
    levels: given.link[key] ?? [],
  });
  // The three-valued B is two causes here, one for each of its states other than 0.
  const model: GraphModel = {
    causes: ['A', 'B=1', 'B=2', 'C'].map((id) => ({ id, prior: 0.5 })),
    mechanisms: [],
    observations: [
      {
        id: 'child',
        leak: given.leak,
        links: [link(0, 'A=1'), link(1, 'B=1'), link(2, 'B=2'), link(3, 'C=1')],
      },
    ],
  };
  it.each(table)('gives the table row A $A, B $B, C $C', ({ A, B, C, p }) => {
    p.forEach((expected, level) => {
      const states = [A, B === 1 ? 1 : 0, B === 2 ? 1 : 0, C];
      const found = exact(model, states, [{ observation: 0, kind: 'level', level }]);
      expect(Math.exp(found.logEvidence)).toBeCloseTo(expected, 14);
    });
  });

  it.each(posteriors)('gives the posteriors for $evidence', (row) => {
    const likelihood = { 'child 0': [1, 0, 0], 'child 1': [0, 1, 0], 'child >=1': [0, 1, 1] }[
      row.evidence
    ] ?? [0, 0, 1];
    const priorA = row.evidence.endsWith('A=0') ? 0 : (given.prior.A[1] ?? 0);
    const priorC = given.prior.C[1] ?? 0;
    // Given B, the network is layered; B itself is summed here. "A=0" is evidence of its own, of probability P(A=0).
    const parts = given.prior.B.map((weight, state) => {
      const priors = [priorA, state === 1 ? 1 : 0, state === 2 ? 1 : 0, priorC];
      const found = exact(model, priors, [{ observation: 0, kind: 'likelihood', likelihood }]);
      return { joint: weight * Math.exp(found.logEvidence), found };
    });
    const total = parts.reduce((sum, part) => sum + part.joint, 0);
    const mean = (cause: number) =>
      parts.reduce((sum, { joint, found }) => sum + (joint * (found.causes[cause] ?? NaN)) / total, 0);
    const isGivenA = row.evidence.endsWith('A=0') ? (given.prior.A[0] ?? 0) : 1;
    expect(total * isGivenA).toBeCloseTo(row.p_evidence, 12);
    expect(mean(0)).toBeCloseTo(row.A_present, 12);
    expect(mean(3)).toBeCloseTo(row.C_present, 12);
    row.B.forEach((p, state) => expect((parts[state]?.joint ?? NaN) / total).toBeCloseTo(p, 12));
  });
});
