import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quickestTelling, tellingApart } from '../../src-core/differential/telling-apart.ts';

const twoLevels = (observation: string, first: number, second: number) => ({
  observation,
  ifFirst: [1 - first, first],
  ifSecond: [1 - second, second],
});
const entropy = (...ps: readonly number[]) => ps.reduce((sum, p) => sum - (p > 0 ? p * Math.log2(p) : 0), 0);

describe('which check tells two causes apart', () => {
  it('is measured by what the answer takes off the doubt between them', () => {
    const [only] = tellingApart([twoLevels('x', 0.9, 0.2)], 0.3);
    const yes = 0.3 * 0.9 + 0.7 * 0.2;
    const ifYes = entropy((0.3 * 0.9) / yes, (0.7 * 0.2) / yes);
    const ifNo = entropy((0.3 * 0.1) / (1 - yes), (0.7 * 0.8) / (1 - yes));
    expect(only?.bits).toBeCloseTo(entropy(0.3, 0.7) - yes * ifYes - (1 - yes) * ifNo, 12);
  });

  it('tells one bit where it settles an even doubt, and is left out where both show the same', () => {
    const apart = tellingApart([twoLevels('same', 0.4, 0.4), twoLevels('sure', 1, 0)]);
    expect(apart).toEqual([{ observation: 'sure', bits: 1 }]);
  });

  it('leaves nothing to tell where one of the two is sure already', () => {
    expect(tellingApart([twoLevels('x', 1, 0)], 1)).toEqual([]);
    expect(tellingApart([twoLevels('x', 1, 0)], 0)).toEqual([]);
  });

  it('never tells more than the doubt there is, whichever of the two is called the first', () => {
    const levels = fc
      .array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 3, maxLength: 3 })
      .map((weights) => weights.map((one) => one / weights.reduce((sum, each) => sum + each, 0)));
    fc.assert(
      fc.property(levels, levels, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (p, q, share) => {
        const bits = (ifFirst: number[], ifSecond: number[], part: number) =>
          tellingApart([{ observation: 0, ifFirst, ifSecond }], part, 0)[0]?.bits ?? NaN;
        expect(bits(p, q, share)).toBeLessThanOrEqual(entropy(share, 1 - share) + 1e-12);
        expect(bits(p, q, share)).toBeCloseTo(bits(q, p, 1 - share), 10);
      }),
      { numRuns: 200, seed: 7 },
    );
  });

  it('takes the quickest of those that tell at least half as much as the best, then the others', () => {
    const minutes: Readonly<Record<string, number>> = { best: 60, good: 2, alike: 2, weak: 0.5 };
    const apart = [
      { observation: 'best', bits: 0.8 },
      { observation: 'alike', bits: 0.6 },
      { observation: 'good', bits: 0.4 },
      { observation: 'weak', bits: 0.39 },
    ];
    const order = quickestTelling(apart, (id) => minutes[id] ?? 0).map((one) => one.observation);
    expect(order).toEqual(['alike', 'good', 'best', 'weak']);
  });
});
