import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { climateSteps } from '../../src-core/moisture/climate.ts';
import { cylinderCentre, cylinderUptake } from '../../src-core/numerics/cylinder-diffusion.ts';
import {
  looseStrand,
  ONE_KILOGRAM_SPOOL,
  waterAfter,
  woundSpool,
  type ClimateSpan,
  type WaterStart,
} from '../../src-core/moisture/index.ts';
import {
  capacityMassFraction,
  diffusivityM2PerS,
  equilibriumMassFraction,
} from '../../src-core/moisture/material-water.ts';
import { runThrough } from '../../src-core/moisture/water-history.ts';
import { LIKELY } from '../../src-core/moisture/wound-water.ts';
import { looseByDifferences, windingByDifferences } from './finite-differences.ts';
import { kilogramOf, waterOf } from './spools.ts';

const DRY: WaterStart = { kind: 'content', massFraction: 0 };
const RADIUS_M = 0.875e-3;
const strand = looseStrand(1.75);

const spanArbitrary = fc.record({
  durationHours: fc.double({ min: 0.01, max: 200, noNaN: true }),
  temperatureC: fc.double({ min: 5, max: 80, noNaN: true }),
  relativeHumidity: fc.double({ min: 0, max: 0.95, noNaN: true }),
});

describe('a loose strand', () => {
  it('follows the analytic solution of one step of humidity to 1e-9', () => {
    for (const polymer of ['pla', 'abs', 'pa6']) {
      const water = waterOf(polymer);
      const end = equilibriumMassFraction(water, 0.6, 'likely');
      const perHour = (diffusivityM2PerS(water, 30, 'likely') * 3600) / RADIUS_M ** 2;
      for (const time of [0.004, 0.02, 0.1, 0.5, 1]) {
        const climate = [{ durationHours: time / perHour, temperatureC: 30, relativeHumidity: 0.6 }];
        const found = waterAfter({ winding: strand, water, start: DRY, climate }).outer;
        expect(Math.abs(found.mean / end - cylinderUptake(time))).toBeLessThan(1e-9);
        if (time >= 0.02) expect(Math.abs(found.core / end - cylinderCentre(time))).toBeLessThan(1e-9);
        expect(found.surface).toBeCloseTo(end, 12);
      }
    }
  });

  it('adds up two steps at two temperatures as Duhamel says, to 1e-9', () => {
    const water = waterOf('petg');
    const climate = [
      { durationHours: 30, temperatureC: 20, relativeHumidity: 0.7 },
      { durationHours: 50, temperatureC: 35, relativeHumidity: 0.2 },
    ];
    const times = climate.map(
      (span) =>
        (diffusivityM2PerS(water, span.temperatureC, 'likely') * span.durationHours * 3600) / RADIUS_M ** 2,
    );
    const [first = 0, second = 0] = times;
    const damp = equilibriumMassFraction(water, 0.7, 'likely');
    const dry = equilibriumMassFraction(water, 0.2, 'likely');
    const expected = damp * cylinderUptake(first + second) + (dry - damp) * cylinderUptake(second);
    const found = waterAfter({ winding: strand, water, start: DRY, climate }).mean;
    expect(Math.abs(found - expected) / damp).toBeLessThan(1e-9);
  });

  it('agrees with an independent fine finite-difference run through a week of weather', () => {
    const climate: ClimateSpan[] = Array.from({ length: 56 }, (_, i) => ({
      durationHours: 3,
      temperatureC: 22 + 6 * Math.sin(i / 3),
      relativeHumidity: 0.5 + 0.35 * Math.sin(i / 7) * Math.cos(i),
    }));
    for (const polymer of ['abs', 'pa6', 'pvb']) {
      const water = waterOf(polymer);
      const found = waterAfter({ winding: strand, water, start: DRY, climate }).outer;
      const byDifferences = looseByDifferences(water, RADIUS_M, climate, 120);
      expect(found.mean / byDifferences.mean).toBeCloseTo(1, 3);
      expect(Math.abs(found.core - byDifferences.core)).toBeLessThan(2e-3 * byDifferences.mean);
    }
  });

  it('stays between its start and what the air can give, whatever the weather', () => {
    fc.assert(
      fc.property(
        fc.array(spanArbitrary, { minLength: 1, maxLength: 12 }),
        fc.double({ min: 0, max: 0.004, noNaN: true }),
        (climate, massFraction) => {
          const water = waterOf('pla');
          const start: WaterStart = { kind: 'content', massFraction };
          const ends = climate.map((span) => equilibriumMassFraction(water, span.relativeHumidity, 'likely'));
          for (const winding of [strand, kilogramOf(water)]) {
            const { mean, outer, inner } = waterAfter({ winding, water, start, climate });
            for (const one of [mean, outer.mean, inner.mean]) {
              expect(one).toBeLessThanOrEqual(Math.max(massFraction, ...ends) + 1e-9);
              expect(one).toBeGreaterThanOrEqual(Math.min(massFraction, ...ends) - 1e-9);
            }
          }
        },
      ),
    );
  });
});

describe('a wound spool', () => {
  it('gains exactly what came in through its outer face', () => {
    fc.assert(
      fc.property(
        fc.array(spanArbitrary, { minLength: 1, maxLength: 10 }),
        fc.constantFrom('pla', 'abs', 'pa6', 'pvb'),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        (climate, polymer, relativeHumidity) => {
          const water = waterOf(polymer);
          const life = {
            winding: kilogramOf(water),
            water,
            start: { kind: 'in-equilibrium', relativeHumidity } as const,
          };
          const before = waterAfter({ ...life, climate: [] }).mean;
          const steps = climateSteps(climate);
          const diffusivity = steps.temperatureC.map((celsius) =>
            diffusivityM2PerS(water, celsius, 'likely'),
          );
          const spool = runThrough(life, steps, diffusivity, LIKELY);
          const gained = (spool.read().mean - before) * life.winding.filamentKg;
          expect(Math.abs(gained - spool.takenUpKg)).toBeLessThan(
            1e-11 + 1e-9 * capacityMassFraction(water, 'likely'),
          );
        },
      ),
    );
  });

  it('agrees with an independent finite-difference run of winding and strands together', () => {
    const water = waterOf('pla');
    const climate = [
      { durationHours: 72, temperatureC: 23, relativeHumidity: 0.6 },
      { durationHours: 24, temperatureC: 23, relativeHumidity: 0.2 },
    ];
    for (const count of [1, 2]) {
      const spans = climate.slice(0, count);
      const winding = kilogramOf(water);
      const found = waterAfter({ winding, water, start: DRY, climate: spans });
      const innerShare = winding.massShares.at(-1) ?? NaN;
      const byDifferences = windingByDifferences(water, ONE_KILOGRAM_SPOOL, spans, innerShare);
      expect(Math.abs(found.mean / byDifferences.mean - 1)).toBeLessThan(0.03);
      expect(Math.abs(found.outer.mean / byDifferences.outer - 1)).toBeLessThan(0.03);
      expect(Math.abs(found.inner.mean / byDifferences.inner - 1)).toBeLessThan(0.08);
    }
  });

  it('hardly cares how a constant climate is cut into spans', () => {
    for (const polymer of ['pla', 'pa6', 'tpu']) {
      const water = waterOf(polymer);
      const winding = kilogramOf(water);
      const after = (spans: number) =>
        waterAfter({
          winding,
          water,
          start: DRY,
          climate: Array.from({ length: spans }, () => ({
            durationHours: 240 / spans,
            temperatureC: 25,
            relativeHumidity: 0.6,
          })),
        });
      const [whole, fine] = [after(1), after(2400)];
      expect(Math.abs(whole.mean / fine.mean - 1)).toBeLessThan(0.015);
      expect(Math.abs(whole.inner.mean / fine.inner.mean - 1)).toBeLessThan(0.03);
    }
  });

  it('shields its inner wraps: outer before inner, surface before core, while it takes up water', () => {
    const water = waterOf('pa6');
    const climate = [{ durationHours: 48, temperatureC: 23, relativeHumidity: 0.6 }];
    const { outer, inner, mean } = waterAfter({ winding: kilogramOf(water), water, start: DRY, climate });
    expect(outer.mean).toBeGreaterThan(3 * inner.mean);
    expect(outer.surface).toBeGreaterThan(outer.core);
    expect(mean).toBeGreaterThan(inner.mean);
  });

  it('takes longer the more of it there is, and a nearly empty one is wet like a strand', () => {
    const water = waterOf('petg');
    const climate = [{ durationHours: 48, temperatureC: 23, relativeHumidity: 0.5 }];
    const meanOf = (filamentKg: number) =>
      waterAfter({
        winding: woundSpool({ ...ONE_KILOGRAM_SPOOL, filamentKg }, water.densityKgPerM3),
        water,
        start: DRY,
        climate,
      }).mean;
    const loose = waterAfter({ winding: strand, water, start: DRY, climate }).mean;
    expect(meanOf(1)).toBeLessThan(meanOf(0.3));
    expect(meanOf(0.3)).toBeLessThan(meanOf(0.02));
    expect(meanOf(0.02) / loose).toBeGreaterThan(0.97);
  });
});

describe('what it refuses', () => {
  const water = waterOf('pla');
  const life = { winding: strand, water, start: DRY };
  it('names the span and what would be right', () => {
    const good = { durationHours: 1, temperatureC: 20, relativeHumidity: 0.5 };
    expect(() => waterAfter({ ...life, climate: [good, { ...good, relativeHumidity: 45 }] })).toThrow(
      'span 2 of the history: relative humidity is a fraction from 0 to 1 (50 % is 0.5), not 45',
    );
    expect(() => waterAfter({ ...life, climate: [{ ...good, temperatureC: -4 }] })).toThrow('span 1');
    expect(() => waterAfter({ ...life, climate: [{ ...good, durationHours: NaN }] })).toThrow('duration');
  });
  it('knows a per cent from a fraction in the start too', () => {
    expect(() => waterAfter({ ...life, start: { kind: 'content', massFraction: 1.2 }, climate: [] })).toThrow(
      '0.5 % is 0.005',
    );
    expect(() =>
      waterAfter({ ...life, start: { kind: 'in-equilibrium', relativeHumidity: 50 }, climate: [] }),
    ).toThrow('fraction from 0 to 1');
    expect(() => woundSpool({ ...ONE_KILOGRAM_SPOOL, filamentKg: 0 }, 1240)).toThrow('filament left');
  });
});
