import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src-core/training/seeded-random.ts';
import { rateChange } from '../../src-core/statistics/change-point.ts';

/**
 * British coal-mining disasters with ten deaths or more, by year from 1851 to 1962: Jarrett, Biometrika 66 (1979) 191-193,
 * as in Carlin, Gelfand and Smith, Applied Statistics 41 (1992) 389-405 (from memory; the total of 191 is printed there).
 */
const DISASTERS = [
  4, 5, 4, 1, 0, 4, 3, 4, 0, 6, 3, 3, 4, 0, 2, 6, 3, 3, 5, 4, 5, 3, 1, 4, 4, 1, 5, 5, 3, 4, 2, 5, 2, 2, 3, 4,
  2, 1, 3, 2, 2, 1, 1, 1, 1, 3, 0, 0, 1, 0, 1, 1, 0, 0, 3, 1, 0, 3, 2, 2, 0, 1, 1, 1, 0, 1, 0, 1, 0, 0, 0, 2,
  1, 0, 0, 0, 1, 1, 0, 2, 3, 3, 1, 1, 2, 1, 1, 1, 1, 2, 4, 2, 0, 0, 0, 1, 4, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0,
  0, 1, 0, 1,
];

describe('since when', () => {
  it('coal-mining disasters fell about 1890, from 3.1 to 0.9 a year (Raftery and Akman 1986; Carlin and others 1992)', () => {
    expect(DISASTERS.length).toBe(112);
    expect(DISASTERS.reduce((sum, one) => sum + one, 0)).toBe(191);
    const places = DISASTERS.flatMap((count, year) =>
      Array.from({ length: count }, (_, i) => year + (i + 0.5) / count),
    );
    const change = rateChange(places, DISASTERS.length);
    if (!change) throw new Error('there are cases');
    expect(1851 + change.at).toBeGreaterThan(1889);
    expect(1851 + change.at).toBeLessThan(1892);
    expect(change.low).toBeLessThan(1890.2 - 1851);
    expect(change.high).toBeGreaterThan(1890.2 - 1851);
    expect(change.high - change.low).toBeLessThan(12);
    expect(change.ratio).toBeCloseTo(0.92 / 3.06, 1);
    expect(change.weight).toBeGreaterThan(1e8);
  });

  it('the mean weight over places that are even is 1: it is no stronger than it says', () => {
    // Exactly even in the sense of an average over all places of three cases on a grid.
    let sum = 0;
    const grid = 14;
    for (let a = 0; a < grid; a++)
      for (let b = 0; b < grid; b++)
        for (let c = 0; c < grid; c++) sum += rateChange([a + 0.5, b + 0.5, c + 0.5], grid)?.weight ?? NaN;
    expect(sum / grid ** 3).toBeGreaterThan(0.97);
    expect(sum / grid ** 3).toBeLessThan(1.03);
  });

  it('passes over a change only where it weighs less than was asked for, and says the same of all others', () => {
    const random = seededRandom(11);
    let passedOver = 0;
    for (let shop = 0; shop < 600; shop++) {
      const count = 3 + Math.floor(random() ** 3 * 400);
      // Half of the shops change; some cases lie at the very ends.
      const change = shop % 2 === 0 ? 1 : 0.2 + 0.8 * random();
      const places = Array.from({ length: count }, (_, i) => (i === 0 ? shop % 3 : 100 * random() ** change));
      const whole = rateChange(places, 100);
      for (const least of [2, 10, 20]) {
        const found = rateChange(places, 100, least);
        if (found) expect(found).toEqual(whole);
        else {
          expect(whole?.weight).toBeLessThan(least);
          passedOver++;
        }
      }
    }
    expect(passedOver).toBeGreaterThan(300);
    expect(passedOver).toBeLessThan(1500);
  });

  it('says nothing of two cases, and refuses places outside', () => {
    expect(rateChange([1, 2], 10)).toBeNull();
    expect(() => rateChange([1, 2, 11], 10)).toThrow(RangeError);
  });

  it('many cases and a strong change neither overflow nor vanish', () => {
    const places = [
      ...Array.from({ length: 2000 }, (_, i) => 500 + i * 0.25),
      ...Array.from({ length: 50 }, (_, i) => i * 10),
    ];
    const change = rateChange(places, 1000);
    expect(change?.at).toBeCloseTo(500, -1);
    expect(change?.ratioLow).toBeGreaterThan(5);
  });
});
