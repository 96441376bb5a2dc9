import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minutesOfCheck, valueOfCheck, type Check } from '../../src-core/planning/check-value.ts';
import type { CheckOffer } from '../../src-core/planning/check-sweep.ts';
import { QUICK_CHECKS, tellingQuickChecks } from '../../src-core/planning/quick-checks.ts';
import type { RepairProblem } from '../../src-core/planning/repair-problem.ts';
import { generator } from '../inference/random-model.ts';
import { cheapestByExhaustion, randomProblem } from './random-problem.ts';

const seeds = fc.integer({ min: 1, max: 1e6 });

/** A check with random answers; its last answer may be impossible altogether. */
function randomCheck(
  { scenarios }: RepairProblem,
  seed: number,
  preparations: readonly string[] = [],
): Check {
  const random = generator(seed);
  const levels = 2 + Math.floor(random() * 2);
  const spread = () => {
    const raw = Array.from({ length: levels }, () => random() ** 2 + 0.001);
    const sum = raw.reduce((a, b) => a + b, 0);
    return [...raw.map((p) => p / sum), 0];
  };
  return {
    id: 'look',
    minutes: 1 + Math.floor(random() * 10),
    preparations,
    levels: scenarios.map(spread),
    unresolvedLevels: spread(),
  };
}

/** Each possible answer with its probability and the problem as it stands after it. */
function answersOf(problem: RepairProblem, { levels, unresolvedLevels, preparations = [] }: Check) {
  return Array.from(unresolvedLevels, (p, level) => {
    const joint = problem.scenarios.map(({ probability }, s) => probability * (levels[s]?.[level] ?? 0));
    const rest = problem.unresolved * p;
    const probability = joint.reduce((sum, one) => sum + one, rest);
    return {
      probability,
      // What the check has prepared costs nobody anything again.
      after: {
        ...problem,
        scenarios: problem.scenarios.map((one, s) => ({
          ...one,
          probability: (joint[s] ?? 0) / probability,
        })),
        unresolved: rest / probability,
        preparations: new Map(
          [...(problem.preparations ?? [])].map(([name, minutes]) => [
            name,
            preparations.includes(name) ? 0 : minutes,
          ]),
        ),
      },
    };
  }).filter(({ probability }) => probability > 0);
}

describe('what a check is worth', () => {
  it.each([[[]], [['cover']]])(
    'is what the cheapest of all orders costs after each answer, with what it prepares (%j) paid once',
    (preparations) =>
      fc.assert(
        fc.property(seeds, (seed) => {
          const problem = randomProblem(seed, 4);
          const check = randomCheck(problem, seed + 3, preparations);
          const answers = answersOf(problem, check);
          const after = answers.reduce(
            (sum, one) => sum + one.probability * cheapestByExhaustion(one.after),
            0,
          );
          const found = valueOfCheck(problem, check);
          const minutes =
            check.minutes + (preparations.length > 0 ? (problem.preparations?.get('cover') ?? NaN) : 0);
          expect(found.minutes).toBeCloseTo(minutes, 9);
          expect(found.expectedMinutes).toBeCloseTo(minutes + after, 7);
          expect(found.value).toBeCloseTo(cheapestByExhaustion(problem) - after, 7);
          expect(found.answers.map(({ probability }) => probability)).toHaveLength(answers.length);
          found.answers.forEach((one, k) =>
            expect(one.probability).toBeCloseTo(answers[k]?.probability ?? NaN, 12),
          );
        }),
        { numRuns: 60, seed: 81 },
      ),
  );

  it('is never less than nothing: an answer may be passed over', () =>
    fc.assert(
      fc.property(seeds, (seed) => {
        const problem = randomProblem(seed, 5);
        const { value, informationBits } = valueOfCheck(problem, randomCheck(problem, seed + 5));
        expect(value).toBeGreaterThan(-1e-9);
        expect(informationBits).toBeGreaterThan(-1e-12);
      }),
      { numRuns: 100, seed: 82 },
    ));

  it('tells in bits by how much the doubt about what holds the complaint up falls', () => {
    const entropy = (shares: readonly number[]) =>
      shares.reduce((sum, p) => sum - (p > 0 ? p * Math.log2(p) : 0), 0);
    const doubt = ({ scenarios, unresolved }: RepairProblem) =>
      entropy([...scenarios.map(({ probability }) => probability), unresolved]);
    fc.assert(
      fc.property(seeds, (seed) => {
        const problem = randomProblem(seed, 3);
        const check = randomCheck(problem, seed + 7);
        const left = answersOf(problem, check).reduce(
          (sum, one) => sum + one.probability * doubt(one.after),
          0,
        );
        expect(valueOfCheck(problem, check).informationBits).toBeCloseTo(doubt(problem) - left, 9);
      }),
      { numRuns: 80, seed: 83 },
    );
  });

  it('pays a preparation that is made already no second time, and keeps it in mind after the check', () => {
    const problem = {
      ...randomProblem(9, 4),
      preparations: new Map([
        ['cover', 12],
        ['heat', 7],
      ]),
    };
    const check = { ...randomCheck(problem, 4), preparations: ['cover', 'heat'], minutes: 3 };
    expect(minutesOfCheck(problem, check)).toBe(22);
    expect(minutesOfCheck({ ...problem, prepared: new Set(['cover']) }, check)).toBe(10);
    const open = {
      ...problem,
      prepared: new Set(['cover']),
      remedies: problem.remedies.map((one) => ({ ...one, preparations: ['cover', 'heat'] })),
    };
    const hot = { ...check, preparations: ['heat'] };
    const nothingToPay = {
      ...open,
      preparations: new Map([
        ['cover', 0],
        ['heat', 0],
      ]),
    };
    const after = answersOf(nothingToPay, hot).reduce(
      (sum, one) => sum + one.probability * cheapestByExhaustion(one.after),
      0,
    );
    expect(valueOfCheck(open, hot).expectedMinutes).toBeCloseTo(10 + after, 7);
  });
});

describe('quick checks that tell most for their time', () => {
  const problem: RepairProblem = {
    scenarios: [
      { causes: [0], probability: 0.4 },
      { causes: [1], probability: 0.4 },
    ],
    unresolved: 0.2,
    remedies: [],
    service: { minutes: 100 },
    preparations: new Map([['cover', 6]]),
  };
  /** Present with this chance under the first, the second and no scenario. */
  const offer = (
    id: string,
    minutes: number,
    chances: readonly [number, number, number],
    preparations: string[] = [],
  ): CheckOffer => ({
    id,
    minutes,
    preparations,
    levelCount: 2,
    forecast: (into) => chances.forEach((p, row) => into.set([1 - p, p], row * 2)),
    inFull: () => {
      throw new Error('not asked for');
    },
  });
  const rule = QUICK_CHECKS;
  const telling = (offers: readonly CheckOffer[], count = 9, more: Partial<RepairProblem> = {}) =>
    tellingQuickChecks({ ...problem, ...more }, offers, rule, count).map((index) => offers[index]?.id);
  const sharp = [0.95, 0.05, 0.5] as const;

  it('take at most the minutes of the rule, what they prepare included', () => {
    expect(telling([offer('ten', 10, sharp), offer('eleven', 11, sharp)])).toEqual(['ten']);
    expect(telling([offer('opened', 5, sharp, ['cover'])])).toEqual([]);
    expect(telling([offer('opened', 4, sharp, ['cover'])])).toEqual(['opened']);
    expect(telling([offer('opened', 5, sharp, ['cover'])], 9, { prepared: new Set(['cover']) })).toEqual([
      'opened',
    ]);
  });

  it('leave out what shows alike whatever holds the complaint up', () =>
    expect(
      telling([
        offer('same', 1, [0.5, 0.5, 0.5]),
        offer('never', 1, [0, 0, 0]),
        offer('hardly', 1, [0.5, 0.52, 0.51]),
      ]),
    ).toEqual([]));

  it('stand by bits a minute: quicker before slower, surer before vaguer, and no more than asked for', () => {
    const offers = [
      offer('slow', 9, sharp),
      offer('vague', 2, [0.7, 0.4, 0.5]),
      offer('quick', 2, sharp),
      offer('sure', 2, [1, 0, 0.5]),
    ];
    expect(telling(offers)).toEqual(['sure', 'quick', 'slow', 'vague']);
    expect(telling(offers, 2)).toEqual(['sure', 'quick']);
  });

  it('read each forecast by its own number of answers', () => {
    const three: CheckOffer = {
      ...offer('three', 2, sharp),
      levelCount: 3,
      forecast: (into) =>
        [
          [0.1, 0.8, 0.1],
          [0.1, 0.1, 0.8],
          [0.8, 0.1, 0.1],
        ].forEach((row, k) => into.set(row, k * 3)),
    };
    expect(telling([three, offer('quick', 2, sharp)])).toEqual(['three', 'quick']);
    expect(telling([offer('quick', 2, sharp), three])).toEqual(['three', 'quick']);
    expect(telling([three, offer('same', 1, [0.5, 0.5, 0.5])])).toEqual(['three']);
  });
});
