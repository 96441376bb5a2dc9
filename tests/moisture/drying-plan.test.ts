import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cylinderTimeFor } from '../../src-core/numerics/cylinder-diffusion.ts';
import {
  dryingCurve,
  LONGEST_HOURS,
  looseStrand,
  planDrying,
  waterAfter,
  type Dryer,
  type DryingJob,
} from '../../src-core/moisture/index.ts';
import { diffusivityM2PerS } from '../../src-core/moisture/material-water.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { kilogramOf, ROOM, waterOf } from './spools.ts';

const knowledge = shippedKnowledge();
const dryAir = (chamberTemperatureC: number): Dryer => ({
  chamberTemperatureC,
  air: { kind: 'dry-air', dewPointC: -40 },
});
const roomAir = (chamberTemperatureC: number, room = ROOM): Dryer => ({
  chamberTemperatureC,
  air: { kind: 'room-air', room },
});

function jobOf(
  polymer: string,
  dryer: Dryer,
  targetMassFraction: number,
  parts: Partial<DryingJob> = {},
): DryingJob {
  const water = waterOf(polymer);
  return {
    winding: kilogramOf(water),
    water,
    start: { kind: 'in-equilibrium', relativeHumidity: 0.5 },
    climate: [],
    dryer,
    spoolBodyHighestC: 150,
    targetMassFraction,
    ...parts,
  };
}

describe('a drying plan', () => {
  it('gives a loose strand in dry air the time of the analytic solution', () => {
    const water = waterOf('petg');
    const target = water.equilibriumAt50.likely * 0.2;
    const plan = planDrying(jobOf('petg', dryAir(60), target, { winding: looseStrand(1.75) }));
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    const end = plan.equilibrium.likely;
    const time = cylinderTimeFor(
      (water.equilibriumAt50.likely - target) / (water.equilibriumAt50.likely - end),
    );
    const hours = (time * 0.875e-3 ** 2) / diffusivityM2PerS(water, 60, 'likely') / 3600;
    expect((plan.innerHours.likely ?? NaN) / hours).toBeCloseTo(1, 2);
    expect(plan.warmUpHours).toBe(0);
  });

  it('reaches its target when the spool is then left in the dryer for so long', () => {
    for (const polymer of ['pla', 'petg', 'abs', 'pa12', 'tpu']) {
      const target = waterOf(polymer).printingLimit.low;
      const job = jobOf(polymer, roomAir(65, { temperatureC: 23, relativeHumidity: 0.3 }), target);
      const plan = planDrying(job);
      if (plan.kind !== 'plan') throw new Error(`${polymer}: ${plan.kind}`);
      const durationHours = Math.max(plan.innerHours.likely ?? NaN, plan.outerHours.likely ?? NaN);
      const relativeHumidity =
        (plan.equilibrium.likely / job.water.equilibriumAt50.likely) ** (1 / job.water.humidityExponent) / 2;
      const climate = [{ durationHours, temperatureC: plan.temperatureC, relativeHumidity }];
      const after = waterAfter({ ...job, climate });
      expect(Math.abs(after.inner.mean / target - 1), polymer).toBeLessThan(0.05);
      expect(after.outer.mean, polymer).toBeLessThanOrEqual(target * 1.01);
    }
  });

  it('is never hotter than filament or spool bear, and says which holds it back', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...knowledge.water.keys()),
        fc.double({ min: 35, max: 150, noNaN: true }),
        fc.double({ min: 45, max: 150, noNaN: true }),
        (polymer, chamber, spoolBodyHighestC) => {
          const plan = planDrying(jobOf(polymer, dryAir(chamber), 0.0005, { spoolBodyHighestC }));
          expect(plan.temperatureC).toBeLessThanOrEqual(chamber);
          expect(plan.temperatureC).toBeLessThanOrEqual(spoolBodyHighestC);
          expect(plan.temperatureC).toBeLessThanOrEqual(waterOf(polymer).highestDryingC);
          expect(plan.heldBackBy === null).toBe(plan.temperatureC === chamber);
        },
      ),
      { numRuns: 60 },
    );
    expect(planDrying(jobOf('pla', dryAir(80), 0.001)).heldBackBy).toBe('filament');
    const plastic = knowledge.spoolBodies.get('plastic')?.highestTempC.value ?? NaN;
    const held = planDrying(jobOf('pc', dryAir(110), 0.001, { spoolBodyHighestC: plastic }));
    expect(held.heldBackBy).toBe('spool');
    expect(held.temperatureC).toBe(plastic);
  });

  it('takes less time hotter, drier, and for less filament', () => {
    const hours = (job: DryingJob) => {
      const plan = planDrying(job);
      if (plan.kind !== 'plan') throw new Error(plan.kind);
      return plan.innerHours.likely ?? NaN;
    };
    const target = 0.0008;
    expect(hours(jobOf('petg', dryAir(65), target))).toBeLessThan(hours(jobOf('petg', dryAir(55), target)));
    expect(hours(jobOf('petg', dryAir(60), target))).toBeLessThan(hours(jobOf('petg', roomAir(60), target)));
    const loose = jobOf('petg', dryAir(60), target, { winding: looseStrand(1.75) });
    expect(hours(loose)).toBeLessThan(hours(jobOf('petg', dryAir(60), target)));
  });

  it('tells that damp air cannot dry, however long', () => {
    const tropics = { temperatureC: 32, relativeHumidity: 0.85 };
    const plan = planDrying(jobOf('pla', roomAir(45, tropics), 0.001));
    expect(plan.kind === 'cannot' && plan.because).toBe('air-too-damp');
    expect(plan.equilibrium.likely).toBeGreaterThan(0.001);
  });

  it('tells that it would take too long, and how far it gets', () => {
    const plan = planDrying(jobOf('pa6', dryAir(45), 0.0015));
    if (plan.kind !== 'cannot') throw new Error(plan.kind);
    expect(plan.because).toBe('too-slow');
    expect(plan.atBest.inner.mean).toBeGreaterThan(0.0015);
    expect(plan.atBest.inner.mean).toBeLessThan(0.027);
  });

  it('sends nobody to the dryer with a dry spool', () => {
    expect(planDrying(jobOf('hips', dryAir(60), 0.001)).kind).toBe('dry-already');
    const opened = { start: { kind: 'content', massFraction: 0.0002 } as const };
    expect(planDrying(jobOf('pla', dryAir(50), 0.001, opened)).kind).toBe('dry-already');
  });

  it('starts from what the spool went through: wet outside only takes less time than wet throughout', () => {
    const climate = [{ durationHours: 24, temperatureC: 23, relativeHumidity: 0.6 }];
    const start = { kind: 'content', massFraction: 0.001 } as const;
    const outerOnly = planDrying(jobOf('pa6', dryAir(90), 0.003, { start, climate }));
    const throughout = planDrying(jobOf('pa6', dryAir(90), 0.003));
    if (outerOnly.kind !== 'plan' || throughout.kind !== 'plan') throw new Error('no plan');
    expect(outerOnly.innerHours.likely ?? NaN).toBeLessThan(throughout.innerHours.likely ?? NaN);
  });

  it('orders its doubt: low ≤ likely ≤ high, with no number beyond the longest time', () => {
    for (const polymer of knowledge.water.keys()) {
      const plan = planDrying(jobOf(polymer, dryAir(90), waterOf(polymer).printingLimit.low));
      if (plan.kind !== 'plan') continue;
      for (const { low, likely, high } of [plan.outerHours, plan.innerHours]) {
        const hours = [low, likely, high].map((one) => one ?? Infinity);
        expect(hours).toEqual([...hours].sort((a, b) => a - b));
        expect(likely ?? Infinity).toBeLessThanOrEqual(LONGEST_HOURS);
      }
    }
  });

  it('names cautions that the guide holds', () => {
    for (const id of planDrying(jobOf('pla', dryAir(50), 0.001)).cautions) {
      expect(knowledge.cautions.has(id)).toBe(true);
    }
  });

  it('refuses what cannot be', () => {
    expect(() => planDrying(jobOf('pla', dryAir(50), 0))).toThrow('0.05 % is 0.0005');
    expect(() => planDrying(jobOf('pla', dryAir(50), 0.05, { spoolBodyHighestC: -1 }))).toThrow(
      'spool bears',
    );
    expect(() => planDrying(jobOf('pla', dryAir(NaN), 0.001))).toThrow('temperature runs from 0 to 150');
    const wrong = roomAir(50, { temperatureC: 23, relativeHumidity: 50 });
    expect(() => planDrying(jobOf('pla', wrong, 0.001))).toThrow('50 % is 0.5');
  });
});

describe('a drying curve', () => {
  it('falls from the start to the end of the longest time, inner wraps behind outer', () => {
    const points = dryingCurve(jobOf('pa12', dryAir(80), 1e-3));
    expect(points[0]?.hours).toBe(0);
    expect(points.at(-1)?.hours).toBeCloseTo(LONGEST_HOURS, 9);
    const inner = points.map((point) => point.inner.likely);
    expect(inner).toEqual([...inner].sort((a, b) => b - a));
    for (const { outer, inner: deep } of points) {
      expect(outer.likely).toBeLessThanOrEqual(deep.likely + 1e-12);
      expect(deep.low).toBeLessThanOrEqual(deep.likely);
      expect(deep.likely).toBeLessThanOrEqual(deep.high);
    }
  });
});
