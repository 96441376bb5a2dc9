import { describe, expect, it } from 'vitest';
import type { CheckOffer } from '../../src-core/planning/check-sweep.ts';
import type { Check } from '../../src-core/planning/check-value.ts';
import { nextStep, nextStepAmong } from '../../src-core/planning/next-step.ts';
import { QUICK_CHECKS } from '../../src-core/planning/quick-checks.ts';
import type { RepairProblem } from '../../src-core/planning/repair-problem.ts';
import { randomSmallCase } from './policies.ts';

/** Two causes that are as likely, each with a remedy of its own, and a rest. */
function twoCauses(minutes: number, share = 0.45): RepairProblem {
  return {
    scenarios: [
      { causes: [0], probability: share },
      { causes: [1], probability: 0.9 - share },
    ],
    unresolved: 0.1,
    remedies: [0, 1].map((cause) => ({ id: `r${cause}`, minutes, removes: [{ cause, probability: 0.9 }] })),
    service: { minutes: 120 },
  };
}

function offer(id: string, minutes: number, chances: readonly number[], trust?: number): CheckOffer {
  const rows = chances.map((p) => [1 - p, p]);
  return {
    id,
    minutes,
    levelCount: 2,
    ...(trust !== undefined && { trust }),
    forecast: (into) => rows.forEach((row, k) => into.set(row, k * 2)),
    inFull: (): Check => ({ id, minutes, levels: rows.slice(0, -1), unresolvedLevels: rows.at(-1) ?? [] }),
  };
}

describe('a check that is relied on by half', () => {
  const options = { leastSavingMinutes: 2, quickChecks: QUICK_CHECKS };
  const sharp = [0.95, 0.05, 0.5];

  it('stands behind one that promises as much and is relied on in full', () => {
    const { best } = nextStepAmong(
      twoCauses(30),
      [offer('said', 2, sharp, 0.5), offer('seen', 2, sharp)],
      options,
    );
    expect(best).toMatchObject({ kind: 'check', check: 1 });
  });

  it('promises half the saving and tells half the bits', () => {
    const { checks, remedies } = nextStepAmong(
      twoCauses(30),
      [offer('said', 2, sharp, 0.5), offer('seen', 2, sharp)],
      options,
    );
    const [said, seen] = [0, 1].map((index) => checks.find(({ check }) => check === index));
    const act = remedies[0]?.expectedMinutes ?? NaN;
    expect(act - (said?.expectedMinutes ?? NaN)).toBeCloseTo((act - (seen?.expectedMinutes ?? NaN)) / 2, 9);
    expect(said?.informationBits).toBeCloseTo((seen?.informationBits ?? NaN) / 2, 9);
  });
});

describe('a look before the work', () => {
  const options = { leastSavingMinutes: 50, quickChecks: QUICK_CHECKS };
  const tells = offer('tells', 3, [0.9, 0.1, 0.3]);

  it('comes before a remedy that will more likely fail and takes three times as long', () => {
    expect(nextStepAmong(twoCauses(30), [tells], options).best).toMatchObject({ kind: 'check', check: 0 });
  });

  it('is left out before a remedy that is as quick, or more likely helps than not', () => {
    expect(nextStepAmong(twoCauses(8), [tells], options).best.kind).toBe('remedy');
    expect(nextStepAmong(twoCauses(30, 0.7), [tells], options).best.kind).toBe('remedy');
  });

  it('is not one that tells nothing of whether the remedy helps', () => {
    const apart = offer('apart', 3, [0.5, 0.5, 0.5]);
    expect(nextStepAmong(twoCauses(30), [apart], options).best.kind).toBe('remedy');
  });
});

describe('a look of which the answer is as good as known', () => {
  const options = { leastSavingMinutes: 2, quickChecks: QUICK_CHECKS };
  /** One likely cause with a remedy of its own, and a seldom one that a look gives away. */
  const likelyAndSeldom = (minutes: number): RepairProblem => ({
    scenarios: [
      { causes: [0], probability: 0.68 },
      { causes: [1], probability: 0.13 },
    ],
    unresolved: 0.19,
    remedies: [0, 1].map((cause) => ({ id: `r${cause}`, minutes, removes: [{ cause, probability: 0.9 }] })),
    service: { minutes: 240 },
  });
  const sureToBeNo = offer('sure to be no', 3, [0, 1, 0]);

  it('gives way to the remedy at hand, as a lead would bet against it', () => {
    const { best, checks } = nextStepAmong(likelyAndSeldom(45), [sureToBeNo], options);
    expect(checks[0]).toMatchObject({ pays: true });
    expect(best).toMatchObject({ kind: 'remedy', remedy: 0 });
  });

  it('is taken where it may spare hours', () => {
    expect(nextStepAmong(likelyAndSeldom(150), [sureToBeNo], options).best.kind).toBe('check');
  });

  it('is taken where no remedy is likely to help', () => {
    const problem = likelyAndSeldom(45);
    const scenarios = [0.1, 0.1].map((probability, cause) => ({ causes: [cause], probability }));
    const { best } = nextStepAmong({ ...problem, scenarios, unresolved: 0.8 }, [sureToBeNo], options);
    expect(best.kind).toBe('check');
  });
});

it('every check that gets a full look gets a second one: none passes for dearer because it had only the first', () => {
  for (let seed = 1; seed <= 60; seed++) {
    const { problem, checks } = randomSmallCase(seed);
    const all = nextStep(problem, checks, { policyStates: 0, twoStepLookAheads: checks.length });
    const usual = nextStep(problem, checks, { policyStates: 0 });
    for (const { check, expectedMinutes } of usual.checks) {
      const known = all.checks.find((one) => one.check === check);
      expect(expectedMinutes).toBeCloseTo(known?.expectedMinutes ?? NaN, 9);
    }
  }
});
