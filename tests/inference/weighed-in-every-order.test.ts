import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { conflict } from '../../src-core/inference/explain/conflict.ts';
import { explainWeights, SHAPLEY_FINDINGS } from '../../src-core/inference/explain/explain-weights.ts';
import type { GraphEvidence, GraphModel } from '../../src-core/inference/network/graph-model.ts';
import { predict } from '../../src-core/inference/queries/predict.ts';
import { bruteForce } from './brute-force.ts';
import { bruteForceTwin } from './brute-force-twin.ts';
import { generator, randomCases, type RandomCase } from './random-model.ts';

const SIZE = { causes: 4, mechanisms: 2, observations: 4, evidenceShare: 0.95 };

function orders<T>(items: readonly T[]): T[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item, k) => orders(items.filter((_, at) => at !== k)).map((rest) => [item, ...rest]));
}

/** Decibans of a cause under some findings, by enumeration. */
function decibans({ model, priors }: RandomCase, findings: readonly GraphEvidence[], cause: number): number {
  const p = bruteForce(model, priors, findings).causes[cause] ?? NaN;
  return 10 * Math.log10(p / (1 - p));
}

describe('the weight of a finding', () => {
  it('is its mean over every order of entry (Shapley 1953), each order by enumeration', () => {
    let compared = 0;
    fc.assert(
      fc.property(randomCases(SIZE), (each) => {
        const { model, priors, evidence } = each;
        fc.pre(evidence.length >= 2 && bruteForce(model, priors, evidence).evidence > 1e-6);
        const found = explainWeights(model, priors, evidence);
        if (found.kind !== 'ok') throw new Error(found.kind);
        fc.pre(found.method === 'shapley');
        const all = orders(evidence.map((_, k) => k));
        model.causes.forEach((_, cause) => {
          if (!Number.isFinite(decibans(each, evidence, cause))) return;
          evidence.forEach((__, k) => {
            const mean =
              all.reduce((sum, order) => {
                const before = order.slice(0, order.indexOf(k));
                const known = (some: readonly number[]) => evidence.filter((___, at) => some.includes(at));
                return (
                  sum + decibans(each, known([...before, k]), cause) - decibans(each, known(before), cause)
                );
              }, 0) / all.length;
            expect(found.findings[cause]?.[k]).toBeCloseTo(mean, 6);
            compared++;
          });
        });
      }),
      { numRuns: 30, seed: 71 },
    );
    expect(compared).toBeGreaterThan(60);
  });

  it('with more findings than that is what each adds to those entered before it', () => {
    const { model, priors, evidence } = manyFindings(SHAPLEY_FINDINGS + 2);
    const found = explainWeights(model, priors, evidence);
    if (found.kind !== 'ok') throw new Error(found.kind);
    expect(found.method).toBe('sequential');
    evidence.forEach((_, k) => {
      const each = { model, priors, evidence };
      const added = decibans(each, evidence.slice(0, k + 1), 0) - decibans(each, evidence.slice(0, k), 0);
      expect(found.findings[0]?.[k]).toBeCloseTo(added, 8);
    });
  });

  it('of findings that cannot both be is not told', () =>
    expect(
      explainWeights(
        {
          causes: [{ id: 'a', prior: 0.2 }],
          mechanisms: [],
          observations: [{ id: 'o', leak: [1, 0], links: [] }],
        },
        [0.2],
        [{ observation: 0, kind: 'level', level: 1 }],
      ).kind,
    ).toBe('impossible-evidence'));
});

/** Two causes that share many findings. */
function manyFindings(count: number): RandomCase {
  const random = generator(17);
  const priors = [0.1, 0.2];
  const model: GraphModel = {
    causes: priors.map((prior, k) => ({ id: `c${k}`, prior })),
    mechanisms: [],
    observations: Array.from({ length: count }, (_, k) => ({
      id: `o${k}`,
      leak: [0.95, 0.05],
      links: [0, 1].map((index) => {
        const p = 0.1 + 0.8 * random();
        return { from: { kind: 'cause' as const, index }, levels: [1 - p, p] };
      }),
    })),
  };
  const evidence = model.observations.map((_, observation) => ({
    observation,
    kind: 'level' as const,
    level: observation % 3 === 0 ? 0 : 1,
  }));
  return { model, priors, evidence };
}

describe('conflict', () => {
  it('lays on each finding what the others lack without it, and names the one that adds most', () => {
    let named = 0;
    fc.assert(
      fc.property(randomCases(SIZE), ({ model, priors, evidence }) => {
        const joint = (findings: readonly GraphEvidence[]) => bruteForce(model, priors, findings).evidence;
        fc.pre(evidence.length >= 2 && joint(evidence) > 1e-6);
        const bits = (findings: readonly GraphEvidence[]) =>
          findings.reduce((sum, one) => sum + Math.log2(joint([one])), 0) - Math.log2(joint(findings));
        const found = conflict(model, priors, evidence);
        if (found.kind !== 'ok') throw new Error(found.kind);
        const adds = evidence.map((_, k) => bits(evidence) - bits(evidence.filter((__, at) => at !== k)));
        adds.forEach((bit, k) => expect(found.contributions[k]).toBeCloseTo(bit, 7));
        const most = Math.max(...adds);
        if (Math.abs(most) < 1e-9) return;
        if (most > 0) expect(adds[found.mostConflicting]).toBeCloseTo(most, 7);
        else expect(found.mostConflicting).toBe(-1);
        named += most > 0 ? 1 : 0;
      }),
      { numRuns: 100, seed: 72 },
    );
    expect(named).toBeGreaterThan(10);
  });
});

describe('what an observation below many mechanisms will show', () => {
  /** Seven mechanisms that nothing said so far reaches; more than are summed over state by state. */
  function wide(seed: number): RandomCase {
    const random = generator(seed);
    const priors = [0.3, 0.2, 0.15];
    return {
      priors,
      model: {
        causes: priors.map((prior, k) => ({ id: `c${k}`, prior })),
        mechanisms: Array.from({ length: 7 }, (_, k) => ({
          id: `m${k}`,
          leak: 0.05 * random(),
          links: [{ cause: k % 3, probability: random() }],
        })),
        observations: [
          {
            id: 'below',
            leak: [0.97, 0.02, 0.01],
            links: Array.from({ length: 7 }, (_, index) => {
              const [a, b] = [0.3 * random(), 0.3 * random()];
              return { from: { kind: 'mechanism' as const, index }, levels: [1 - a - b, a, b] };
            }),
          },
          {
            id: 'seen',
            leak: [0.9, 0.1],
            links: [0, 1].map((index) => ({ from: { kind: 'cause' as const, index }, levels: [0.3, 0.7] })),
          },
        ],
      },
      evidence: [{ observation: 1, kind: 'level', level: 1 }],
    };
  }

  it('is what enumeration says', () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const { model, priors, evidence } = wide(seed);
        const found = predict(model, priors, evidence);
        if (found.kind !== 'ok') throw new Error(found.kind);
        const truth = bruteForce(model, priors, evidence).levels[0] ?? [];
        expect(found.levels[1]).toBeNull();
        truth.forEach((p, level) => expect(found.levels[0]?.[level]).toBeCloseTo(p, 10));
      }),
      { numRuns: 12, seed: 73 },
    ));

  it('is of the machine as it is now, after a remedy that did not help', () => {
    const { model, priors, evidence } = wide(5);
    const small = { ...model, mechanisms: model.mechanisms.map((one) => ({ ...one, leak: 0 })) };
    const history = {
      complaint: [1],
      tries: [{ removal: [{ cause: 0, probability: 0.9 }], outcome: 'not-cured' as const }],
    };
    const found = predict(small, priors, evidence, { history });
    if (found.kind !== 'ok') throw new Error(found.kind);
    const now = bruteForceTwin(small, priors, evidence, history);
    expect(found.levels[0]?.[0]).toBeCloseTo((now.noneNow[0] ?? 0) / now.evidence, 9);
    // As it was at first it would be likelier to show.
    const then = predict(small, priors, evidence);
    if (then.kind !== 'ok') throw new Error(then.kind);
    expect(found.levels[0]?.[0]).toBeGreaterThan(then.levels[0]?.[0] ?? 1);
  });
});
