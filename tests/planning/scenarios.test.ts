import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CaseHistory } from '../../src-core/inference/network/case-history.ts';
import type { GraphModel } from '../../src-core/inference/network/graph-model.ts';
import { caseScenarios } from '../../src-core/planning/case-scenarios.ts';
import { bruteForceTwin } from '../inference/brute-force-twin.ts';
import { randomCase } from '../inference/random-model.ts';

const seeds = fc.integer({ min: 1, max: 2 ** 31 - 2 });
const SIZE = { causes: 4, mechanisms: 2, observations: 4, maxLevels: 3, softEvidence: false };

describe('what holds a complaint up', () => {
  it.each(['better', 'not-cured'] as const)(
    'is told of the complaint that is still there, after a remedy that left it "%s": what goes with a set of causes, enumeration says',
    (outcome) => {
      let checked = 0;
      fc.assert(
        fc.property(seeds, (seed) => {
          const { model, priors, evidence } = randomCase(seed, SIZE);
          const complaint = evidence
            .filter((one) => one.kind === 'level' && one.level > 0)
            .slice(0, 1)
            .map((one) => one.observation);
          fc.pre(complaint.length > 0);
          const removal = model.causes.map((_, cause) => ({ cause, probability: 0.6 }));
          const history: CaseHistory = { complaint, tries: [{ removal, outcome }] };
          /** Probability of the evidence and of the complaint being there after one more removal. */
          const there = (causes: readonly number[]) =>
            bruteForceTwin(model, priors, evidence, {
              complaint,
              tries: [
                ...history.tries,
                { removal: causes.map((cause) => ({ cause, probability: 1 })), outcome: 'not-cured' },
              ],
            }).evidence;
          const now = there([]);
          fc.pre(now > 1e-4);
          const found = caseScenarios(model, priors, evidence, complaint, { history });
          if (found.kind !== 'ok') throw new Error(found.kind);
          const listed = found.scenarios.reduce((sum, { probability }) => sum + probability, 0);
          expect(listed + found.unresolved).toBeCloseTo(1, 9);
          for (const set of [[0], model.causes.map((_, cause) => cause)]) {
            const goes = found.scenarios
              .filter(({ causes }) => causes.every((cause) => set.includes(cause)))
              .reduce((sum, { probability }) => sum + probability, 0);
            // Scenarios below 0.0005 and sets of four causes are left to the rest.
            const truth = 1 - there(set) / now;
            expect(goes).toBeLessThan(truth + 1e-9);
            expect(goes).toBeGreaterThan(truth - 0.02);
            checked++;
          }
        }),
        { numRuns: 25, seed: 91 },
      );
      expect(checked).toBeGreaterThan(30);
    },
  );

  const one: GraphModel = {
    causes: [
      { id: 'behind-it', prior: 0.2 },
      { id: 'elsewhere', prior: 0.9 },
    ],
    mechanisms: [],
    observations: [
      { id: 'complaint', leak: [1, 0], links: [{ from: { kind: 'cause', index: 0 }, levels: [0.2, 0.8] }] },
      { id: 'other', leak: [0.9, 0.1], links: [{ from: { kind: 'cause', index: 1 }, levels: [0.2, 0.8] }] },
    ],
  };
  const present = [{ observation: 0, kind: 'level' as const, level: 1 }];

  it('is nothing that cannot reach it, however likely it is', () => {
    const found = caseScenarios(one, [0.2, 0.9], present, [0]);
    if (found.kind !== 'ok') throw new Error(found.kind);
    expect(found.scenarios.map(({ causes }) => causes)).toEqual([[0]]);
    expect(found.scenarios[0]?.probability).toBeCloseTo(1, 9);
  });

  it('is all that raises it at once, up to three causes together, each set with its own chance', () => {
    const three: GraphModel = {
      causes: ['a', 'b', 'c'].map((id) => ({ id, prior: 1 })),
      mechanisms: [],
      observations: [
        {
          id: 'complaint',
          leak: [1, 0],
          links: [0, 1, 2].map((index) => ({ from: { kind: 'cause' as const, index }, levels: [0.2, 0.8] })),
        },
      ],
    };
    const found = caseScenarios(three, [1, 1, 1], present, [0]);
    if (found.kind !== 'ok') throw new Error(found.kind);
    // By hand: each raises it 8 of 10 times by itself; that none does is left out.
    const whole = 1 - 0.2 ** 3;
    for (const { causes, probability } of found.scenarios)
      expect(probability).toBeCloseTo((0.8 ** causes.length * 0.2 ** (3 - causes.length)) / whole, 9);
    expect(found.scenarios.map(({ causes }) => causes.length)).toEqual([3, 2, 2, 2, 1, 1, 1]);
    expect(found.unresolved).toBeCloseTo(0, 9);
  });

  it('is nothing any more once a remedy has cured it, and what cannot be is said', () => {
    const cured = { removal: [{ cause: 0, probability: 1 }], outcome: 'cured' as const };
    expect(
      caseScenarios(one, [0.2, 0.9], present, [0], { history: { complaint: [0], tries: [cured] } }).kind,
    ).toBe('complaint-gone');
    expect(caseScenarios(one, [0, 0.9], present, [0]).kind).toBe('impossible-evidence');
    expect(caseScenarios(one, [0.2, 0.9], present, [0], { limits: { tableEntries: 1, terms: 0 } }).kind).toBe(
      'too-wide',
    );
  });
});
