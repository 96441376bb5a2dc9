import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { complaintModel, infer, modelWithoutComplaint } from '../../src-core/inference/index.ts';
import type {
  GraphEvidence,
  GraphModel,
  GraphObservation,
} from '../../src-core/inference/network/graph-model.ts';
import { bruteForce } from './brute-force.ts';
import { generator, randomCase } from './random-model.ts';

/** A random network with one or two complaints in evidence, and one observation that speaks of what accounts for them. */
function complaintCase(seed: number) {
  const { model: plain, priors, evidence } = randomCase(seed, { causes: 3, mechanisms: 2, observations: 4 });
  const random = generator(seed + 7);
  const complaint = plain.observations.length > 2 && random() < 0.4 ? [0, 1] : [0];
  const account = plain.observations.length > complaint.length ? complaint.length : -1;
  const observations = plain.observations.map((observation, index): GraphObservation =>
    index === account
      ? {
          ...observation,
          accountLevels: plain.causes.map(() => {
            const p = random();
            return observation.leak.map((_, level) =>
              level === 0 ? 1 - p : p / (observation.leak.length - 1),
            );
          }),
        }
      : observation,
  );
  const base: GraphModel = { ...plain, observations };
  const found: GraphEvidence[] = [
    ...complaint.map((observation): GraphEvidence => ({
      observation,
      kind: 'level',
      level: (base.observations[observation]?.leak.length ?? 2) - 1,
    })),
    ...evidence.filter(({ observation }) => !complaint.includes(observation)),
  ];
  return { base, priors, complaint, evidence: found, unknown: random() < 0.5 ? priors.length - 1 : -1 };
}

describe('a model in which accounting for the complaint is a variable', () => {
  it('is answered exactly: 1,000 small networks against enumeration of every state', () => {
    let compared = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2 ** 31 - 20 }), (seed) => {
        const { base, priors, complaint, evidence, unknown } = complaintCase(seed);
        const { model, priorsFrom } = complaintModel(base, complaint, unknown);
        const hypotheses = priorsFrom(priors);
        const truth = bruteForce(model, hypotheses, evidence);
        const posterior = infer(model, hypotheses, evidence);
        if (truth.evidence === 0) {
          expect(posterior.kind).toBe('impossible-evidence');
          return;
        }
        if (posterior.kind !== 'ok' || !posterior.exact) throw new Error('not exact');
        compared++;
        truth.causes.forEach((p, k) => expect(posterior.causes[k]).toBeCloseTo(p, 9));
      }),
      { numRuns: 1000, seed: 20261126 },
    );
    expect(compared).toBeGreaterThan(500);
  });

  it('says of one cause and one complaint what the definition says: there, and raised along an active path', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2 ** 31 - 2 }), (seed) => {
        const random = generator(seed);
        const [prior, direct, drive, shown, sign] = [
          random(),
          random(),
          random(),
          random(),
          random(),
        ] as const;
        const two = (p: number) => [1 - p, p];
        const base: GraphModel = {
          causes: [{ id: 'c', prior }],
          mechanisms: [{ id: 'm', leak: 0, links: [{ cause: 0, probability: drive }] }],
          observations: [
            {
              id: 'complaint',
              leak: two(0),
              links: [
                { from: { kind: 'cause', index: 0 }, levels: two(direct) },
                { from: { kind: 'mechanism', index: 0 }, levels: two(shown) },
              ],
            },
            {
              id: 'sign',
              leak: two(0),
              links: [{ from: { kind: 'mechanism', index: 0 }, levels: two(sign) }],
            },
          ],
        };
        const { model, priorsFrom } = complaintModel(base, [0], -1);
        // With one cause and no leaks, "at work" is the complaint being there: base and complaint model say the same of all.
        for (const complaint of [0, 1])
          for (const seen of [0, 1]) {
            const evidence: GraphEvidence[] = [
              { observation: 0, kind: 'level', level: complaint },
              { observation: 1, kind: 'level', level: seen },
            ];
            const before = bruteForce(base, [prior], evidence).evidence;
            const after = bruteForce(model, priorsFrom([prior]), evidence).evidence;
            // The roots "at work" and "in the background" may both be there: an error of the order of the product of their priors.
            const [work = 0, background = 0] = priorsFrom([prior]);
            expect(Math.abs(after - before)).toBeLessThanOrEqual(2 * work * background + 1e-12);
          }
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  it('lets what a pattern says count for causes that reach the complaint, and for no others', () => {
    const two = (p: number) => [1 - p, p];
    const base: GraphModel = {
      causes: [
        { id: 'reaches', prior: 0.05 },
        { id: 'reaches-too', prior: 0.05 },
        { id: 'elsewhere', prior: 0.05 },
      ],
      mechanisms: [],
      observations: [
        {
          id: 'strings',
          leak: two(0),
          links: [0, 1].map((index) => ({ from: { kind: 'cause' as const, index }, levels: two(0.8) })),
        },
        { id: 'after-firmware', leak: two(0.01), links: [], accountLevels: [two(0.1), two(0.5), two(0.9)] },
      ],
    };
    const { model, priorsFrom } = complaintModel(base, [0], -1);
    const priors = priorsFrom(base.causes.map(({ prior }) => prior));
    const complaint: GraphEvidence = { observation: 0, kind: 'level', level: 1 };
    const told: GraphEvidence = { observation: 1, kind: 'level', level: 1 };
    const before = infer(model, priors, [complaint]);
    const after = infer(model, priors, [complaint, told]);
    if (before.kind !== 'ok' || after.kind !== 'ok') throw new Error('no posterior');
    expect(after.causes[1]).toBeGreaterThan(before.causes[1] ?? 1);
    expect(after.causes[0]).toBeLessThan(before.causes[0] ?? 0);
    // Present in the background, "elsewhere" is neither raised nor lowered by it.
    expect(after.causes[2]).toBe(0);
    expect(after.causes[5]).toBeCloseTo(before.causes[5] ?? NaN, 12);
  });

  it('leaves the unknown cause to account for what leaks and unexplained mechanisms raise', () => {
    const two = (p: number) => [1 - p, p];
    const base: GraphModel = {
      causes: [
        { id: 'known', prior: 0.02 },
        { id: 'unknown', prior: 0.1 },
      ],
      mechanisms: [{ id: 'm', leak: 0.01, links: [{ cause: 0, probability: 0.5 }] }],
      observations: [
        {
          id: 'complaint',
          leak: two(0.03),
          links: [
            { from: { kind: 'mechanism', index: 0 }, levels: two(0.5) },
            { from: { kind: 'cause', index: 1 }, levels: two(0.2) },
          ],
        },
      ],
    };
    const { model, priorsFrom } = complaintModel(base, [0], 1);
    const posterior = infer(model, priorsFrom([0.02, 0.1]), [{ observation: 0, kind: 'level', level: 1 }]);
    if (posterior.kind !== 'ok') throw new Error('no posterior');
    const unknown = 0.03 + 0.01 * 0.5 + 0.1 * 0.2;
    const known = 0.02 * 0.5 * 0.5;
    const either = 1 - (1 - unknown) * (1 - known);
    expect(posterior.causes[1]).toBeCloseTo(unknown / either, 10);
    expect(posterior.causes[0]).toBeCloseTo(known / either, 10);
  });

  it('takes presence for accounting where nothing is complained of', () => {
    const two = (p: number) => [1 - p, p];
    const base: GraphModel = {
      causes: [{ id: 'a', prior: 0.1 }],
      mechanisms: [],
      observations: [{ id: 'told', leak: two(0.05), links: [], accountLevels: [two(0.7)] }],
    };
    const { model, priorsFrom } = modelWithoutComplaint(base);
    const posterior = infer(model, priorsFrom([0.1]), [{ observation: 0, kind: 'level', level: 1 }]);
    if (posterior.kind !== 'ok') throw new Error('no posterior');
    const there = 0.1 * (1 - 0.3 * 0.95);
    expect(posterior.causes[0]).toBeCloseTo(there / (there + 0.9 * 0.05), 12);
  });
});
