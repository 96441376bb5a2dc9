import { expect, it } from 'vitest';
import { barOf } from '../../src-renderer/screens/materials/margin-bar.ts';

it('margins of all materials lie on one scale, with what is short left of the line', () => {
  const { zero } = barOf({ low: 0, high: 0 });
  const spare = barOf({ low: 10, high: 40 });
  const short = barOf({ low: -40, high: -10 });
  expect(spare.from).toBeGreaterThan(zero);
  expect(short.to).toBeLessThan(zero);
  expect(spare.to - spare.from).toBeCloseTo(short.to - short.from, 9);
  for (const bar of [
    barOf({ low: 500, high: 900 }),
    barOf({ low: -500, high: -300 }),
    barOf({ low: 3, high: 3 }),
  ]) {
    expect(bar.from).toBeGreaterThanOrEqual(0);
    expect(bar.to).toBeLessThanOrEqual(100);
    expect(bar.to - bar.from).toBeGreaterThanOrEqual(2);
  }
});
