import { describe, expect, it } from 'vitest';
import { afterWeight, weightOfEvidence } from '../../src-core/inference/explain/decibans.ts';
import { explainWeights } from '../../src-core/inference/explain/explain-weights.ts';
import type { GraphModel } from '../../src-core/inference/network/graph-model.ts';
import { infer } from '../../src-core/inference/queries/infer.ts';
import { valueOfCheck } from '../../src-core/planning/check-value.ts';
import { referenceValue } from './reference-record.ts';

describe('decibans, inference.yaml deciban-coin, deciban-coin-exact (General Report on Tunny 1945)', () => {
  const rounded = referenceValue<{ decibans_per_head: number; gained: number; prior_db: number }>(
    'inference',
    'deciban-coin',
  );
  const given = referenceValue<{ decibans_per_head: number; gained: number; posterior_probability: number }>(
    'inference',
    'deciban-coin-exact',
  );
  it('a head is worth 3 decibans for the double-headed coin', () => {
    expect(weightOfEvidence(1, 0.5)).toBeCloseTo(given.decibans_per_head, 12);
    expect(Math.round(weightOfEvidence(1, 0.5))).toBe(rounded.decibans_per_head);
  });
  it('twenty heads lift 1 in 10 000 to the listed probability', () => {
    expect(20 * weightOfEvidence(1, 0.5)).toBeCloseTo(given.gained, 11);
    expect(afterWeight(1 / 10001, given.gained)).toBeCloseTo(given.posterior_probability, 12);
  });
  it('twenty heads do the same through the network', () => {
    const heads = Array.from({ length: 20 }, (_, k) => ({
      id: `toss ${k + 1}`,
      leak: [0.5, 0.5],
      links: [{ from: { kind: 'cause' as const, index: 0 }, levels: [0, 1] }],
    }));
    const model: GraphModel = {
      causes: [{ id: 'double-headed', prior: 1 / 10001 }],
      mechanisms: [],
      observations: heads,
    };
    const evidence = heads.map((_, observation) => ({ observation, kind: 'level' as const, level: 1 }));
    const found = infer(model, [1 / 10001], evidence);
    if (found.kind !== 'ok' || !found.exact) throw new Error('expected an exact answer');
    expect(found.causes[0]).toBeCloseTo(given.posterior_probability, 12);
    const explained = explainWeights(model, [1 / 10001], evidence);
    if (explained.kind !== 'ok') throw new Error(explained.kind);
    expect(explained.method).toBe('sequential');
    explained.findings[0]?.forEach((weight) => expect(weight).toBeCloseTo(given.decibans_per_head, 9));
    expect(explained.total[0]).toBeCloseTo(given.gained, 9);
  });
});

describe('the scale, inference.yaml deciban-scale', () => {
  const scale = referenceValue<{ db: number; 'from_0.5': number; 'from_0.05': number }[]>(
    'inference',
    'deciban-scale',
  );
  it.each(scale)('$db decibans', ({ db, ...from }) => {
    expect(afterWeight(0.5, db)).toBeCloseTo(from['from_0.5'], 12);
    expect(afterWeight(0.05, db)).toBeCloseTo(from['from_0.05'], 12);
  });
});

describe('two findings, inference.yaml weight-of-evidence-two-findings', () => {
  const given = referenceValue<Record<string, number>>('inference', 'weight-of-evidence-two-findings');
  // Finding 1: 0.1 without, 0.8 with the cause: link 1 - 0.2 / 0.9. Finding 2: 0.4 without, 0.7 with: 1 - 0.3 / 0.6.
  const model: GraphModel = {
    causes: [{ id: 'cause', prior: 0.05 }],
    mechanisms: [],
    observations: [
      {
        id: 'f1',
        leak: [0.9, 0.1],
        links: [{ from: { kind: 'cause', index: 0 }, levels: [0.2 / 0.9, 1 - 0.2 / 0.9] }],
      },
      { id: 'f2', leak: [0.6, 0.4], links: [{ from: { kind: 'cause', index: 0 }, levels: [0.5, 0.5] }] },
    ],
  };
  it('weigh what the record says and add up', () => {
    const found = explainWeights(
      model,
      [0.05],
      [
        { observation: 0, kind: 'level', level: 1 },
        { observation: 1, kind: 'level', level: 0 },
      ],
    );
    if (found.kind !== 'ok') throw new Error(found.kind);
    expect(found.findings[0]?.[0]).toBeCloseTo(given['db_finding1'] ?? NaN, 10);
    expect(found.findings[0]?.[1]).toBeCloseTo(given['db_finding2'] ?? NaN, 10);
    expect(found.total[0]).toBeCloseTo(given['total_db'] ?? NaN, 10);
    expect(afterWeight(0.05, found.total[0] ?? NaN)).toBeCloseTo(given['posterior'] ?? NaN, 12);
  });
});

describe('what a check tells, inference.yaml check-information', () => {
  const given = referenceValue<Record<string, number>>('inference', 'check-information');
  it('has the listed mutual information and posteriors', () => {
    const value = valueOfCheck(
      {
        scenarios: [{ causes: [0], probability: 0.2 }],
        unresolved: 0.8,
        remedies: [],
        service: { minutes: 1 },
      },
      { id: 'check', minutes: 0, levels: [[0.1, 0.9]], unresolvedLevels: [0.8, 0.2] },
    );
    expect(value.informationBits).toBeCloseTo(given['mutual_information'] ?? NaN, 12);
    expect(value.answers[1]?.probability).toBeCloseTo(given['p_positive'] ?? NaN, 12);
    expect(value.answers[1]?.scenarios[0]).toBeCloseTo(given['post_positive'] ?? NaN, 12);
    expect(value.answers[0]?.scenarios[0]).toBeCloseTo(given['post_negative'] ?? NaN, 12);
  });
});
