import fc from 'fast-check';
import { expect, it } from 'vitest';
import { confidenceScore } from '../../src-core/training/proper-score.ts';

const probability = fc.double({ min: 0, max: 1, noNaN: true });
const expected = (believed: number, said: number) =>
  believed * confidenceScore(said, true) + (1 - believed) * confidenceScore(said, false);

it('is proper: nobody does better on average by saying anything but what he believes', () => {
  fc.assert(
    fc.property(probability, probability, (believed, said) => {
      const honest = expected(believed, believed);
      expect(honest).toBeGreaterThanOrEqual(expected(believed, said) - 1e-9);
      // Strictly: saying something else loses the square of the difference.
      expect(honest - expected(believed, said)).toBeCloseTo(100 * (believed - said) ** 2, 8);
    }),
  );
});

it('takes no probability outside 0 to 1', () => {
  expect(() => confidenceScore(1.2, true)).toThrow(RangeError);
  expect(() => confidenceScore(Number.NaN, true)).toThrow(RangeError);
});
