import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rivalry } from '../../src-core/differential/case-rivals.ts';
import {
  sensitivityThresholds,
  withWeight,
} from '../../src-core/inference/explain/sensitivity-thresholds.ts';
import { bruteForce } from './brute-force.ts';
import { randomCases } from './random-model.ts';

const SIZE = { causes: 5, mechanisms: 2, observations: 5 };

function firstOf(causes: readonly number[]): number {
  return causes.indexOf(Math.max(...causes));
}

describe('sensitivityThresholds', () => {
  it('name the weight at which the ranking turns and not before, as enumeration shows', () => {
    let turned = 0;
    fc.assert(
      fc.property(randomCases(SIZE), ({ model, priors, evidence }) => {
        const found = sensitivityThresholds(model, priors, evidence);
        if (found.kind !== 'ok') return;
        for (const { weight, probability, tipsAt, rival } of found.points.slice(0, 3)) {
          const at = (p: number) => {
            const moved = withWeight(model, priors, weight, p);
            return bruteForce(moved.model, moved.priors, evidence).causes;
          };
          const there = at(tipsAt);
          expect(there[rival]).toBeCloseTo(there[found.first] ?? NaN, 7);
          const short = at(probability + 0.98 * (tipsAt - probability));
          const lead = (short[found.first] ?? NaN) - Math.max(...short);
          expect(lead).toBeGreaterThan(-1e-9);
          if (
            firstOf(at(Math.min(1, Math.max(0, probability + 1.02 * (tipsAt - probability))))) !== found.first
          )
            turned++;
        }
      }),
      { numRuns: 120, seed: 101 },
    );
    expect(turned).toBeGreaterThan(60);
  });

  it('leave out a weight that cannot turn the ranking', () => {
    const model = {
      causes: [
        { id: 'a', prior: 0.9 },
        { id: 'b', prior: 0.1 },
      ],
      mechanisms: [],
      observations: [{ id: 'o', leak: [0.9, 0.1], links: [] }],
    };
    const found = sensitivityThresholds(model, [0.9, 0.1], [{ observation: 0, kind: 'level', level: 1 }]);
    if (found.kind !== 'ok') throw new Error(found.kind);
    // The priors meet where one becomes the other: a falls to 0.1, or b rises to 0.9.
    expect(found.points.map(({ weight, tipsAt }) => [weight, Math.round(tipsAt * 1e9) / 1e9])).toEqual([
      [{ kind: 'prior', cause: 0 }, 0.1],
      [{ kind: 'prior', cause: 1 }, 0.9],
    ]);
    expect(found.points[0]?.logOddsMove).toBeCloseTo(-2 * Math.log(9), 9);
  });
});

describe('rivalry', () => {
  it('names every answer that puts another of the leading causes first, as enumeration does', () => {
    let changes = 0;
    fc.assert(
      fc.property(randomCases({ ...SIZE, evidenceShare: 0.5 }), ({ model, priors, evidence }) => {
        const known = evidence.map(({ observation }) => observation);
        const open = [...model.observations.keys()].filter((index) => !known.includes(index));
        const found = rivalry(model, priors, evidence, open);
        if (found.kind !== 'ok') return;
        const named = new Map(
          found.decisionChangingFindings.map((one) => [`${one.observation} ${one.level}`, one] as const),
        );
        for (const observation of open) {
          model.observations[observation]?.leak.forEach((_, level) => {
            const after = bruteForce(model, priors, [...evidence, { observation, kind: 'level', level }]);
            if (after.evidence === 0) return;
            const [first = NaN] = found.leading;
            const sorted = [...after.causes].sort((a, b) => b - a);
            // A dead heat may go either way.
            if ((sorted[0] ?? 0) - (sorted[1] ?? 0) < 1e-9) return;
            const change = named.get(`${observation} ${level}`);
            expect(change?.first ?? first).toBe(firstOf(after.causes));
            if (!change) return;
            expect(change.firstProbability).toBeCloseTo(sorted[0] ?? NaN, 8);
            const before = bruteForce(model, priors, evidence).evidence;
            expect(change.probability).toBeCloseTo(after.evidence / before, 8);
            changes++;
          });
        }
      }),
      { numRuns: 120, seed: 102 },
    );
    expect(changes).toBeGreaterThan(40);
  });

  it('prefers the sign that only one of two rivals shows to one that both show', () => {
    const link = (index: number, p: number) => ({
      from: { kind: 'cause' as const, index },
      levels: [1 - p, p],
    });
    const model = {
      causes: [
        { id: 'a', prior: 0.2 },
        { id: 'b', prior: 0.2 },
        { id: 'c', prior: 0.01 },
      ],
      mechanisms: [],
      observations: [
        { id: 'complaint', leak: [0.99, 0.01], links: [link(0, 0.9), link(1, 0.85)] },
        { id: 'both', leak: [0.99, 0.01], links: [link(0, 0.8), link(1, 0.8)] },
        { id: 'one', leak: [0.99, 0.01], links: [link(0, 0.95)] },
      ],
    };
    const found = rivalry(model, [0.2, 0.2, 0.01], [{ observation: 0, kind: 'level', level: 1 }], [1, 2]);
    if (found.kind !== 'ok') throw new Error(found.kind);
    const [strongest] = found.rivals;
    expect(strongest?.cause).toBe(1);
    expect(strongest?.apart.map(({ observation }) => observation)).toEqual([2]);
    // What is not known before the answer less what is not known after, from the numbers above.
    const { causes } = bruteForce(model, [0.2, 0.2, 0.01], [{ observation: 0, kind: 'level', level: 1 }]);
    const share = (causes[0] ?? NaN) / ((causes[0] ?? NaN) + (causes[1] ?? NaN));
    const unsure = (p: number) => -p * Math.log2(p) - (1 - p) * Math.log2(1 - p);
    const [ifFirst, ifRival] = [1 - 0.99 * 0.05, 0.01];
    const yes = share * ifFirst + (1 - share) * ifRival;
    const after =
      yes * unsure((share * ifFirst) / yes) + (1 - yes) * unsure((share * (1 - ifFirst)) / (1 - yes));
    expect(strongest?.apart[0]?.bits).toBeCloseTo(unsure(share) - after, 9);
  });
});
