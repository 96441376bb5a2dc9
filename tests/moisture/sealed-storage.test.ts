import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Desiccant } from '../../src-core/knowledge/schema.ts';
import {
  desiccantUnits,
  desiccantUnitsDin,
  leakThroughWallGPerDay,
  lossOnDrying,
  sealedOutlook,
  steamFrom,
  type SealedTub,
} from '../../src-core/moisture/index.ts';
import { desiccantGPer100g } from '../../src-core/moisture/sealed-storage.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { ROOM, waterOf } from './spools.ts';

const knowledge = shippedKnowledge();
const gel = silicaGel();

function silicaGel(): Desiccant {
  const found = knowledge.desiccants.get('silica-gel');
  if (!found) throw new Error('the guide has no silica gel');
  return found;
}

const tub: SealedTub = {
  airLitre: 20,
  closedWith: ROOM,
  filamentKg: 1,
  water: waterOf('petg'),
  filamentMassFraction: 0.0028,
  desiccant: gel,
  desiccantG: 100,
  desiccantHoldsG: 0,
  leakGPerDay: 0.02,
  roomHumidity: 0.5,
  highestHumidity: 0.2,
};

describe('a closed tub', () => {
  it('shares out all the water it was closed with, and no more', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.006, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0.05, max: 0.9, noNaN: true }),
        (filamentMassFraction, desiccantG, desiccantHoldsG, relativeHumidity) => {
          const closedWith = { temperatureC: 23, relativeHumidity };
          const outlook = sealedOutlook({
            ...tub,
            filamentMassFraction,
            desiccantG,
            desiccantHoldsG,
            closedWith,
          });
          fc.pre(outlook.relativeHumidity < 1);
          const inAir = 20 * (10.28279e-3 / 0.5) * relativeHumidity;
          const put = inAir + filamentMassFraction * 1000 + desiccantHoldsG;
          const found = outlook.waterInAirG + outlook.waterInFilamentG + outlook.waterInDesiccantG;
          expect(found).toBeCloseTo(put, 5);
        },
      ),
    );
  });

  it('without desiccant stays as damp as its filament; with enough it gets dry', () => {
    const alone = sealedOutlook({ ...tub, desiccant: null, desiccantG: 0 });
    expect(alone.relativeHumidity).toBeCloseTo(0.5, 2);
    expect(alone.monthsUntilDamp).toBe(0);
    const helped = sealedOutlook(tub);
    expect(helped.relativeHumidity).toBeLessThan(0.1);
    expect(helped.monthsUntilDamp ?? 0).toBeGreaterThan(3);
    expect(sealedOutlook({ ...tub, desiccantG: 300 }).relativeHumidity).toBeLessThan(helped.relativeHumidity);
  });

  it('lasts as long as a step-by-step filling of the tub says', () => {
    const { relativeHumidity, monthsUntilDamp } = sealedOutlook(tub);
    const capacityG = (humidity: number) =>
      0.0028 * 1000 * (humidity / 0.5) +
      humidity * 20 * (10.28279e-3 / 0.5) +
      desiccantGPer100g(gel, humidity);
    let [humidity, days] = [relativeHumidity, 0];
    let held = capacityG(humidity);
    while (humidity < tub.highestHumidity) {
      held += 0.02 * (1 - humidity / 0.5) * 0.25;
      days += 0.25;
      while (capacityG(humidity) < held) humidity += 1e-6;
    }
    expect((monthsUntilDamp ?? NaN) / (days / 30.4)).toBeCloseTo(1, 2);
  });

  it('never gets damp in a dry room or without a leak', () => {
    expect(sealedOutlook({ ...tub, roomHumidity: 0.2 }).monthsUntilDamp).toBeNull();
    expect(sealedOutlook({ ...tub, leakGPerDay: 0 }).monthsUntilDamp).toBeNull();
  });

  it('names cautions that the guide holds, and refuses what cannot be', () => {
    for (const id of sealedOutlook(tub).cautions) expect(knowledge.cautions.has(id)).toBe(true);
    expect(() => sealedOutlook({ ...tub, highestHumidity: 20 })).toThrow('10 % is 0.1');
    expect(() => sealedOutlook({ ...tub, leakGPerDay: -1 })).toThrow('leakGPerDay');
    expect(() => sealedOutlook({ ...tub, filamentMassFraction: 2 })).toThrow('0.5 % is 0.005');
    expect(() => sealedOutlook({ ...tub, roomHumidity: 50 })).toThrow('room the tub stands in');
  });

  it('leaks through its wall in proportion to the vapour outside', () => {
    const test = { temperatureC: 38, relativeHumidity: 0.9 };
    expect(leakThroughWallGPerDay(0.17, 0.5, test)).toBeCloseTo(0.085, 12);
    expect(leakThroughWallGPerDay(0.17, 0.5, ROOM)).toBeLessThan(0.03);
    expect(() => leakThroughWallGPerDay(-1, 0.5, ROOM)).toThrow('gPerM2Day');
  });
});

describe('units of desiccant', () => {
  const pack = { months: 12, gPerM2Day: 0.03, areaM2: 0.4, gramPerUnit: 3 };
  it('are refused for numbers that cannot be', () => {
    expect(() => desiccantUnits({ ...pack, areaM2: -1 })).toThrow('areaM2');
    expect(() => desiccantUnits({ ...pack, gramPerUnit: 0 })).toThrow('above 0');
    const damp = { ...pack, airM3: 0.02, airGPerM3: 15, packingKg: 0, packingGPerKg: 0 };
    expect(() => desiccantUnitsDin({ ...damp, gramPerUnit: 5 })).toThrow('units of 3, 6, 8 g, not of 5 g');
  });
});

describe('weighing, drying, weighing', () => {
  const weights = { beforeG: 1203.4, afterG: 1200.1, spoolBodyG: 210, scaleErrorG: 0.1 };
  it('gives the water lost and its bound', () => {
    const { lost, plusMinus, low, high, isTold } = lossOnDrying(weights);
    expect(lost).toBeCloseTo(3.3 / 990.1, 9);
    // Both weighings off by 0.1 g in opposite senses, the worst case.
    const worst = (3.3 + 0.2) / (990.1 - 0.1);
    expect(plusMinus).toBeGreaterThanOrEqual(worst - lost - 1e-7);
    expect(plusMinus).toBeCloseTo(worst - lost, 6);
    expect([low, high]).toEqual([lost - plusMinus, lost + plusMinus]);
    expect(isTold).toBe(true);
  });
  it('tells when the scale is too coarse, and leaves out what the spool body lost', () => {
    expect(lossOnDrying({ ...weights, scaleErrorG: 2 }).isTold).toBe(false);
    expect(lossOnDrying({ ...weights, spoolBodyLossG: 3 }).lost).toBeCloseTo(0.3 / 993.1, 9);
  });
  it('refuses weights that cannot be', () => {
    expect(() => lossOnDrying({ ...weights, spoolBodyG: 1300 })).toThrow('weigh the empty spool again');
    expect(() => lossOnDrying({ ...weights, beforeG: NaN })).toThrow('beforeG');
  });
});

describe('steam', () => {
  const melt = {
    massFraction: 0.001,
    nozzleTemperatureC: 215,
    meltDensityKgPerM3: 1100,
    meltZoneMm3: 48.1,
    flowMm3PerS: 5,
  };
  it('rises with water and temperature and has less time in the hot end at higher flow', () => {
    const steam = steamFrom(melt);
    expect(steam.voidFraction).toBeCloseTo(steam.vapourPerMelt / (1 + steam.vapourPerMelt), 12);
    expect(steamFrom({ ...melt, massFraction: 0.002 }).vapourPerMelt).toBeCloseTo(
      2 * steam.vapourPerMelt,
      12,
    );
    expect(steamFrom({ ...melt, nozzleTemperatureC: 280 }).vapourPerMelt).toBeGreaterThan(
      steam.vapourPerMelt,
    );
    expect(steamFrom({ ...melt, flowMm3PerS: 10 }).residenceSeconds).toBeCloseTo(
      steam.residenceSeconds / 2,
      12,
    );
    for (const id of steam.cautions) expect(knowledge.cautions.has(id)).toBe(true);
  });
  it('refuses what cannot be', () => {
    expect(() => steamFrom({ ...melt, massFraction: 1 })).toThrow('0.5 % is 0.005');
    expect(() => steamFrom({ ...melt, nozzleTemperatureC: 60 })).toThrow('100 to 500 °C, not 60 °C');
    expect(() => steamFrom({ ...melt, meltDensityKgPerM3: 0 })).toThrow('melt density');
    expect(() => steamFrom({ ...melt, meltZoneMm3: 0 })).toThrow('melt zone');
    expect(() => steamFrom({ ...melt, flowMm3PerS: 0 })).toThrow('flow runs');
  });
});
