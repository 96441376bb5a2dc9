import { describe, expect, it } from 'vitest';
import { rankCorrelation } from '../../src-core/statistics/rank-correlation.ts';
import { seededRandom } from '../../src-core/training/seeded-random.ts';

/** Pairs 1..n with places given in order: rho = 1 - 6 sum d² / (n (n² - 1)). */
const inOrder = (...places: readonly number[]) => places.map((place, i) => [i + 1, place] as const);

describe('rank correlation', () => {
  /*
   * Spearman's own example of the formula needs no table; the exact tails for few pairs do: one of the n! orders has a sum of
   * squared differences of 0, and n - 1 have 2 (a swap of neighbours).
   */
  it.each([
    [4, 2 / 24],
    [5, 2 / 120],
    [6, 2 / 720],
  ])('of %i pairs all in order: only that order and its reverse are as far', (n, chance) => {
    const found = rankCorrelation(inOrder(...Array.from({ length: n }, (_, i) => i + 1)));
    expect(found).toMatchObject({ isExact: true });
    expect(found?.coefficient).toBeCloseTo(1, 12);
    expect(found?.chance).toBeCloseTo(chance, 12);
  });

  it('of six pairs with neighbours swapped: 1 - 6 * 2 / 210, and 2 (1 + 5) of 720 orders', () => {
    const found = rankCorrelation(inOrder(2, 1, 3, 4, 5, 6));
    expect(found?.coefficient).toBeCloseTo(1 - 12 / 210, 12);
    expect(found?.chance).toBeCloseTo(12 / 720, 12);
  });

  /*
   * Critical values of Spearman's coefficient, 5 % two-sided (Zar, J. Am. Stat. Assoc. 67, 1972, 578-580): 0.786 for 7, 0.738 for 8
   * and 0.700 for 9 pairs; from memory. A coefficient that reaches the value must have a chance of at most 5 %, the next smaller
   * one above.
   */
  it.each([
    [7, 0.786],
    [8, 0.738],
    [9, 0.7],
  ])('of %i pairs the coefficient stands out from %f on', (n, critical) => {
    const random = seededRandom(n);
    const step = 12 / (n * (n * n - 1));
    // One order for each of the two coefficients about the critical value; sums of squared differences are even.
    const wanted = [0, 1].map((k) => 2 * Math.floor((1 - critical + 1e-3) / step) + 2 * k);
    for (const [k, sum] of wanted.entries()) {
      const places = Array.from({ length: n }, (_, i) => i + 1);
      const squares = () => places.reduce((total, place, i) => total + (place - i - 1) ** 2, 0);
      while (squares() !== sum) {
        const [a, b] = [Math.floor(random() * n), Math.floor(random() * n)];
        const before = squares();
        [places[a], places[b]] = [places[b] ?? 0, places[a] ?? 0];
        if (Math.abs(squares() - sum) > Math.abs(before - sum) && random() > 0.2)
          [places[a], places[b]] = [places[b] ?? 0, places[a] ?? 0];
      }
      const found = rankCorrelation(inOrder(...places));
      expect(found?.isExact).toBe(true);
      if (k === 0) expect(found?.chance).toBeLessThanOrEqual(0.05);
      else expect(found?.chance).toBeGreaterThan(0.05);
    }
  });

  it('gives ties the mean of their places, and says nothing where one side never changes', () => {
    // Ranks 1, 2.5, 2.5, 4 against 1 to 4: covariance 4.5, variances 4.5 and 5.
    const found = rankCorrelation([
      [1, 10],
      [2, 20],
      [2, 30],
      [3, 40],
    ]);
    expect(found?.coefficient).toBeCloseTo(4.5 / Math.sqrt(4.5 * 5), 12);
    expect(rankCorrelation(inOrder(1, 1, 1, 1))).toBeNull();
    expect(rankCorrelation(inOrder(1, 2))).toBeNull();
  });

  it('beyond nine pairs draws orders, near the exact chance, the same each time, and never says 0', () => {
    const pairs = inOrder(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12);
    const found = rankCorrelation(pairs);
    expect(found).toMatchObject({ isExact: false, chance: 1 / 20_001 });
    // 12 pairs: 0.587 is the 5 % value of the same table, from memory.
    const near = rankCorrelation(inOrder(3, 1, 6, 2, 8, 4, 12, 5, 10, 7, 11, 9));
    expect(near?.coefficient).toBeGreaterThan(0.587);
    expect(near?.chance).toBeLessThan(0.05);
    expect(rankCorrelation(pairs)).toEqual(found);
  });

  it('calls what has nothing to do with it real in one of twenty', () => {
    const random = seededRandom(11);
    let called = 0;
    for (let round = 0; round < 400; round++)
      if (
        (rankCorrelation(Array.from({ length: 7 }, () => [random(), random()] as const))?.chance ?? 1) <= 0.05
      )
        called++;
    expect(called / 400).toBeGreaterThan(0.02);
    expect(called / 400).toBeLessThan(0.075);
  });
});
