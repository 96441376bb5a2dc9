import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  looseStrand,
  printingLimitAt,
  waterAfter,
  waterBand,
  type MaterialWater,
  type SpoolLife,
} from '../../src-core/moisture/index.ts';
import { cylinderUptake } from '../../src-core/numerics/cylinder-diffusion.ts';
import { normalBelow } from '../../src-core/numerics/normal.ts';
import { kilogramOf, waterOf } from './spools.ts';

const DEVIATE = 1.2815515655446004;
const week = [{ durationHours: 168, temperatureC: 23, relativeHumidity: 0.5 }];
const lifeOf = (polymer: string, hours = 168): SpoolLife => {
  const water = waterOf(polymer);
  return {
    winding: kilogramOf(water),
    water,
    start: { kind: 'content', massFraction: 0 },
    climate: [{ durationHours: hours, temperatureC: 23, relativeHumidity: 0.5 }],
  };
};

describe('the normal distribution', () => {
  it('has the tabled values (Abramowitz & Stegun, table 26.1, from memory)', () => {
    expect(normalBelow(0)).toBe(0.5);
    expect(normalBelow(1)).toBeCloseTo(0.841344746068543, 13);
    expect(normalBelow(1.959963984540054)).toBeCloseTo(0.975, 13);
    expect(normalBelow(-DEVIATE)).toBeCloseTo(0.1, 13);
    expect(normalBelow(3.5)).toBeCloseTo(0.999767370920964, 13);
    expect(normalBelow(-6) / 9.86587645037698e-10).toBeCloseTo(1, 9);
    expect(() => normalBelow(NaN)).toThrow('not a number');
  });
});

describe('the band', () => {
  it('stands in order, holds the likely run, and gives chances', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('pla', 'petg', 'abs', 'pc', 'pa6', 'tpu', 'pva'),
        fc.double({ min: 1, max: 2000, noNaN: true }),
        fc.double({ min: 1, max: 40, noNaN: true }),
        (polymer, hours, flow) => {
          const life = lifeOf(polymer, hours);
          const band = waterBand(life, flow);
          const likely = waterAfter(life);
          expect(band.mean.likely).toBeCloseTo(likely.mean, 9);
          for (const { low, likely: middle, high } of [band.mean, band.outer.mean, band.inner.core]) {
            expect(low).toBeLessThanOrEqual(middle);
            expect(middle).toBeLessThanOrEqual(high);
          }
          for (const chance of Object.values(band.chanceOverLimit)) {
            expect(chance).toBeGreaterThanOrEqual(0);
            expect(chance).toBeLessThanOrEqual(1);
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  it('rises with time in the open and the chance of trouble with flow', () => {
    const chances = [6, 24, 72, 400].map((hours) => waterBand(lifeOf('petg', hours), 5).chanceOverLimit.mean);
    expect(chances).toEqual([...chances].sort((a, b) => a - b));
    const byFlow = [1, 5, 16].map((flow) => waterBand(lifeOf('petg'), flow).chanceOverLimit.mean);
    expect(byFlow).toEqual([...byFlow].sort((a, b) => a - b));
    expect(byFlow[2] ?? 0).toBeGreaterThan((byFlow[0] ?? 1) + 0.2);
  });

  it('agrees with a dense grid over both doubts and the limit, worked out from the analytic uptake', () => {
    for (const [polymer, hours] of [
      ['abs', 24],
      ['abs', 168],
      ['petg', 48],
      ['pla', 10],
      ['pa12', 24],
    ] as const) {
      const water = waterOf(polymer);
      const life: SpoolLife = {
        winding: looseStrand(1.75),
        water,
        start: { kind: 'content', massFraction: 0 },
        climate: [{ ...week[0], durationHours: hours, temperatureC: 23, relativeHumidity: 0.5 }],
      };
      const band = waterBand(life, 5);
      const { below, chance } = byGrid(water, hours);
      expect(Math.abs(band.chanceOverLimit.mean - chance), polymer).toBeLessThan(0.06);
      expect(Math.abs(below(band.mean.low) - 0.1), polymer).toBeLessThan(0.06);
      expect(Math.abs(below(band.mean.high) - 0.9), polymer).toBeLessThan(0.06);
    }
  });

  it('follows the limit as it falls with flow', () => {
    const water = waterOf('abs');
    expect(printingLimitAt(water, 5).likely).toBe(water.printingLimit.likely);
    expect(printingLimitAt(water, 40).likely).toBeLessThan(printingLimitAt(water, 10).likely);
    expect(() => printingLimitAt(water, 0)).toThrow('0.1 to 200 mm³/s');
  });
});

/** Two-piece log-normals through the 10, 50 and 90 % points, 60 quantiles each, nothing of the code under test but data. */
function byGrid(water: MaterialWater, hours: number) {
  const quantiles = Array.from({ length: 60 }, (_, i) => deviateAt((i + 0.5) / 60));
  const draw = ({ low, likely, high }: { low: number; likely: number; high: number }, z: number) =>
    likely * (z < 0 ? likely / low : high / likely) ** (z / DEVIATE);
  const contents = quantiles.flatMap((zHold) =>
    quantiles.map((zSpeed) => {
      const diffusivity = draw(water.diffusivityAt23M2PerS, zSpeed);
      return (
        draw(water.equilibriumAt50, zHold) * cylinderUptake((diffusivity * hours * 3600) / 0.875e-3 ** 2)
      );
    }),
  );
  const limits = quantiles.map((z) => draw(water.printingLimit, z));
  const over = contents.reduce((sum, one) => sum + limits.filter((limit) => one > limit).length, 0);
  return {
    below: (content: number) => contents.filter((one) => one <= content).length / contents.length,
    chance: over / (contents.length * limits.length),
  };
}

function deviateAt(probability: number): number {
  let [low, high] = [-8, 8];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
