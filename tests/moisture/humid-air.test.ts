import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cylinderTimeFor, cylinderUptake } from '../../src-core/numerics/cylinder-diffusion.ts';
import {
  dewPointC,
  humidityAtPressure,
  humidityWhenHeated,
  pressureAtDewPointPa,
  vapourPressurePa,
} from '../../src-core/moisture/humid-air.ts';
import { saturationPressurePa, saturationTemperatureK } from '../../src-core/moisture/saturation-pressure.ts';

describe('saturation pressure', () => {
  it('and its inverse undo each other from 0 to 370 °C', () => {
    fc.assert(
      fc.property(fc.double({ min: 273.15, max: 643, noNaN: true }), (kelvin) => {
        expect(Math.abs(saturationTemperatureK(saturationPressurePa(kelvin)) - kelvin)).toBeLessThan(1e-5);
      }),
    );
  });

  it('refuses what lies outside, not-a-number too', () => {
    expect(() => saturationPressurePa(272)).toThrow('273.15 to 647.096 K, not 272 K');
    expect(() => saturationPressurePa(NaN)).toThrow(RangeError);
    expect(() => saturationTemperatureK(500)).toThrow('611.2 Pa');
  });
});

describe('humid air', () => {
  it('has the dew point back as vapour pressure', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 95, noNaN: true }),
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        (temperatureC, relativeHumidity) => {
          const air = { temperatureC, relativeHumidity };
          const dew = dewPointC(air);
          expect(dew).toBeLessThanOrEqual(temperatureC + 1e-9);
          const back = humidityAtPressure(pressureAtDewPointPa(dew), temperatureC);
          expect(Math.abs(back - relativeHumidity)).toBeLessThan(1e-8);
        },
      ),
    );
  });

  it('keeps its vapour pressure while it is heated', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 60, max: 150, noNaN: true }),
        (temperatureC, relativeHumidity, hotC) => {
          const air = { temperatureC, relativeHumidity };
          const hot = { temperatureC: hotC, relativeHumidity: humidityWhenHeated(air, hotC) };
          expect(vapourPressurePa(hot)).toBeCloseTo(vapourPressurePa(air), 6);
        },
      ),
    );
  });

  it('names the fault: frost, a percentage for a fraction, a temperature out of range', () => {
    expect(() => dewPointC({ temperatureC: 25, relativeHumidity: 0.1 })).toThrow('frost, not dew');
    expect(() => vapourPressurePa({ temperatureC: 23, relativeHumidity: 50 })).toThrow('50 % is 0.5');
    expect(() => vapourPressurePa({ temperatureC: -5, relativeHumidity: 0.5 })).toThrow(
      '0 to 150 °C, not -5',
    );
    expect(() => pressureAtDewPointPa(-120)).toThrow('-100 to 100');
  });
});

describe('uptake of a cylinder', () => {
  it('never falls, joins its two forms without a step, and turns round', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-8, max: 2, noNaN: true }), (time) => {
        const share = cylinderUptake(time);
        expect(cylinderUptake(time * 1.001)).toBeGreaterThanOrEqual(share);
        if (share < 0.999) expect(cylinderTimeFor(share) / time).toBeCloseTo(1, 6);
      }),
    );
    expect(Math.abs(cylinderUptake(4e-4) - cylinderUptake(4e-4 - 1e-15))).toBeLessThan(2e-9);
    expect(() => cylinderUptake(-1)).toThrow(RangeError);
    expect(() => cylinderTimeFor(1)).toThrow(RangeError);
  });
});
