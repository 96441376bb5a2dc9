import { describe, expect, it } from 'vitest';
import { garwoodLimits } from '../../src-core/statistics/garwood-limits.ts';
import { poissonAtLeast, poissonAtMost } from '../../src-core/statistics/poisson.ts';
import { referenceValue } from './reference-record.ts';

describe('exact Poisson limits against Garwood (1936), statistics.yaml garwood-table', () => {
  const table = referenceValue<{ n: number; conf: number; low: number; high: number }[]>(
    'statistics',
    'garwood-table',
  );
  it.each(table)('n = $n at $conf gives [$low, $high]', ({ n, conf, low, high }) => {
    const limits = garwoodLimits(n, conf);
    expect(limits.low).toBeCloseTo(low, 5);
    expect(limits.high).toBeCloseTo(high, 5);
  });
});

describe('Poisson tails, statistics.yaml c-chart-tail (NIST c-chart, mean 16)', () => {
  const tails = referenceValue<{ above: number; below: number }>('statistics', 'c-chart-tail');
  it('above 28', () => expect(poissonAtLeast(29, 16)).toBeCloseTo(tails.above, 12));
  it('below 4', () => expect(poissonAtMost(3, 16)).toBeCloseTo(tails.below, 12));
});
