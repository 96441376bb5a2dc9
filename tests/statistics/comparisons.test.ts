import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactRateLimits, timeBetweenLimits } from '../../src-core/statistics/control-charts.ts';
import { adjustedChances, weightsThatStand } from '../../src-core/statistics/false-discovery.ts';
import { gammaAtMost } from '../../src-core/statistics/gamma-distribution.ts';
import { fitRateSpread, updatedRate } from '../../src-core/statistics/gamma-poisson.ts';
import { hypergeometricAtLeast } from '../../src-core/statistics/hypergeometric.ts';
import { poissonAtMost } from '../../src-core/statistics/poisson.ts';
import { compareRates, shareLimits } from '../../src-core/statistics/rate-comparison.ts';
import { chanceToTell, exposureToTell } from '../../src-core/statistics/rate-power.ts';

describe('one printer against the others, by cases', () => {
  it('is Fisher’s tea: all four cups told right have chance 1 in 70', () => {
    // Fisher, The Design of Experiments (1935), chapter II.
    expect(hypergeometricAtLeast(4, 4, 4, 8)).toBeCloseTo(1 / 70, 14);
    expect(hypergeometricAtLeast(3, 4, 4, 8)).toBeCloseTo(17 / 70, 14);
    expect(hypergeometricAtLeast(0, 4, 4, 8)).toBe(1);
    expect(hypergeometricAtLeast(5, 4, 4, 8)).toBe(0);
    // Of 6, 5 marked and 4 drawn: 3 must be among them.
    expect(hypergeometricAtLeast(3, 4, 5, 6)).toBe(1);
  });

  it.each([
    [1, 9, 2, 8],
    [1, 2, 9, 8],
    [-1, 2, 2, 8],
  ])('refuses %d, %d, %d of %d', (count, drawn, marked, all) => {
    expect(() => hypergeometricAtLeast(count, drawn, marked, all)).toThrow(RangeError);
  });
});

describe('the ratio of two rates', () => {
  const counts = fc.record({ count: fc.nat(40), exposure: fc.double({ min: 1, max: 5000, noNaN: true }) });

  it('its 95 % limits leave 1 out just where the two-sided chance is below 5 %', () => {
    fc.assert(
      fc.property(counts, counts, (first, second) => {
        const { low, high, chanceTwoSided } = compareRates(first, second);
        if (first.count + second.count === 0) return;
        const isOut = low > 1 || high < 1;
        if (Math.abs(chanceTwoSided - 0.05) > 1e-9) expect(chanceTwoSided < 0.05).toBe(isOut);
      }),
    );
  });

  it('turned round it is its inverse', () => {
    const there = compareRates({ count: 9, exposure: 300 }, { count: 3, exposure: 400 });
    const back = compareRates({ count: 3, exposure: 400 }, { count: 9, exposure: 300 });
    expect(back.low).toBeCloseTo(1 / there.high, 10);
    expect(back.high).toBeCloseTo(1 / there.low, 10);
  });

  it('says nothing of no cases at all, and refuses no exposure', () => {
    expect(compareRates({ count: 0, exposure: 1 }, { count: 0, exposure: 2 })).toMatchObject({
      ratio: NaN,
      low: 0,
      high: Infinity,
      chanceTwoSided: 1,
    });
    expect(() => compareRates({ count: 1, exposure: 0 }, { count: 0, exposure: 2 })).toThrow(RangeError);
  });

  it('limits of a share are Clopper and Pearson’s: none of 10 gives 0 to 30.85 %', () => {
    expect(shareLimits(0, 10)).toMatchObject({ low: 0 });
    expect(shareLimits(0, 10).high).toBeCloseTo(1 - 0.025 ** (1 / 10), 12);
    expect(shareLimits(10, 10).low).toBeCloseTo(0.025 ** (1 / 10), 12);
  });
});

describe('many looks', () => {
  it('looks without a case count as well', () => {
    expect(adjustedChances([0.01, 0.02], 10)).toEqual([0.1, 0.1]);
    expect(() => adjustedChances([0.01, 0.02], 1)).toThrow(RangeError);
  });

  it('weights stand by e-BH', () => {
    expect(weightsThatStand([30, 1, 0.2], 0.1)).toEqual([true, false, false]);
    // 15 alone is too little of three (30 are needed); two of 15 stand together.
    expect(weightsThatStand([15, 1, 0.2], 0.1)).toEqual([false, false, false]);
    expect(weightsThatStand([15, 15, 0.2], 0.1)).toEqual([true, true, false]);
  });
});

describe('rates that lean on the others', () => {
  it('units that differ no more than chance lets them all get the common rate', () => {
    const spread = fitRateSpread([10, 11, 9, 10].map((count) => ({ count, exposure: 100 })));
    if (!spread) throw new Error('there are cases');
    const own = updatedRate(spread, { count: 11, exposure: 100 });
    expect(own.shape / own.rate).toBeCloseTo(0.1, 3);
  });

  it('without a case there is nothing to lean on', () => {
    expect(fitRateSpread([{ count: 0, exposure: 100 }])).toBeNull();
    expect(fitRateSpread([])).toBeNull();
  });

  it('a gamma tail is a Poisson tail', () => {
    for (const [count, mean] of [
      [0, 0.3],
      [4, 2.5],
      [30, 45],
      [200, 180],
    ] as const)
      expect(1 - gammaAtMost({ shape: count + 1, rate: 1 }, mean)).toBeCloseTo(
        poissonAtMost(count, mean),
        11,
      );
  });
});

it('time between cases has limits as rare as three standard deviations on either side', () => {
  const { centre, low, high } = timeBetweenLimits(100);
  expect(1 - Math.exp(-low / 100)).toBeCloseTo(0.00135, 6);
  expect(Math.exp(-high / 100)).toBeCloseTo(0.00135, 6);
  expect(Math.exp(-centre / 100)).toBeCloseTo(0.5, 12);
});

describe('when a change can be told', () => {
  it('later for a smaller change, sooner after more cases, not at all after too few', () => {
    const halved = exposureToTell({ count: 30, exposure: 1000 }, 0.5);
    const quartered = exposureToTell({ count: 30, exposure: 1000 }, 0.25);
    const afterMore = exposureToTell({ count: 60, exposure: 2000 }, 0.5);
    if (halved === null || quartered === null || afterMore === null) throw new Error('it can be told');
    expect(quartered).toBeLessThan(halved);
    expect(afterMore).toBeLessThan(halved);
    expect(chanceToTell({ count: 30, exposure: 1000 }, 0.5, halved)).toBeGreaterThanOrEqual(0.8);
    expect(chanceToTell({ count: 30, exposure: 1000 }, 0.5, halved / 2)).toBeLessThan(0.8);
    expect(exposureToTell({ count: 2, exposure: 1000 }, 0.5)).toBeNull();
    expect(exposureToTell({ count: 0, exposure: 1000 }, 0.5)).toBeNull();
  });

  it('a rise is told as well', () => {
    expect(chanceToTell({ count: 30, exposure: 1000 }, 3, 1000)).toBeGreaterThan(0.95);
    expect(chanceToTell({ count: 30, exposure: 1000 }, 1.1, 1000)).toBeLessThan(0.1);
  });
});

it('a month with few cases expected is out only where chance is as rare as three standard deviations', () => {
  const months = [
    ...Array.from({ length: 11 }, () => ({ count: 10, exposure: 1000 })),
    { count: 6, exposure: 150 },
  ];
  const { centre, high, low } = exactRateLimits(months).at(-1) ?? { centre: NaN, high: NaN, low: NaN };
  const mean = centre * 150;
  const most = Math.round(high * 150);
  expect(1 - poissonAtMost(most, mean)).toBeLessThanOrEqual(0.00135);
  expect(1 - poissonAtMost(most - 1, mean)).toBeGreaterThan(0.00135);
  expect(low).toBe(0);
  // The usual limit would cry out here, at a chance of four in a thousand.
  expect(centre + 3 * Math.sqrt(centre / 150)).toBeLessThan(6 / 150);
  expect(most).toBe(6);
});
