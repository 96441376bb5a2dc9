/**
 * Vapour pressure, humid air and diffusion in a cylinder against published tables. The numbers are copied from the
 * project's collection of check values (moisture.yaml); the id of the record stands beside each.
 */
import { describe, expect, it } from 'vitest';
import { besselJ01, zerosOfJ0 } from '../../src-core/numerics/bessel.ts';
import {
  cylinderCentre,
  cylinderTimeFor,
  cylinderUptake,
} from '../../src-core/numerics/cylinder-diffusion.ts';
import { absoluteHumidityKgPerM3, dewPointC, humidityWhenHeated } from '../../src-core/moisture/index.ts';
import {
  icePressurePa,
  saturationPressurePa,
  saturationTemperatureK,
} from '../../src-core/moisture/saturation-pressure.ts';

const ratio = (ours: number, theirs: number) => Math.abs(ours / theirs - 1);

describe('saturation pressure', () => {
  it('if97-verification: IAPWS R7-97, table 35, to 9 digits', () => {
    const printed = [
      [300, 0.00353658941],
      [500, 2.63889776],
      [600, 12.3443146],
    ] as const;
    for (const [kelvin, megapascal] of printed) {
      expect((saturationPressurePa(kelvin) / 1e6).toPrecision(9)).toBe(megapascal.toPrecision(9));
    }
  });

  it('inverse: IAPWS R7-97, table 36 (from memory), to 9 digits', () => {
    const printed = [
      [0.1, 372.755919],
      [1, 453.035632],
      [10, 584.149488],
    ] as const;
    for (const [megapascal, kelvin] of printed) {
      expect(saturationTemperatureK(megapascal * 1e6).toPrecision(9)).toBe(kelvin.toPrecision(9));
    }
  });

  it('psat-steam-table: steam table after NIST/IAPWS-95 (Ohio University), within its printed digits', () => {
    const kilopascal = [
      [10, 1.23],
      [20, 2.34],
      [25, 3.17],
      [30, 4.25],
      [40, 7.39],
      [50, 12.35],
      [60, 19.95],
      [70, 31.2],
      [80, 47.41],
      [90, 70.18],
      [95, 84.61],
    ] as const;
    for (const [celsius, printed] of kilopascal) {
      expect(Math.abs(saturationPressurePa(celsius + 273.15) / 1e3 - printed)).toBeLessThan(0.0101);
    }
  });

  it('psat-crc: Handbook of Chemistry and Physics (1992-93), older temperature scale, within 0.15 %', () => {
    const kilopascal = [
      [10, 1.2281],
      [20, 2.3388],
      [25, 3.169],
      [40, 7.3814],
      [50, 12.344],
      [60, 19.932],
      [80, 47.373],
      [90, 70.117],
    ] as const;
    for (const [celsius, printed] of kilopascal) {
      expect(ratio(saturationPressurePa(celsius + 273.15) / 1e3, printed)).toBeLessThan(1.5e-3);
    }
  });

  it('over ice: IAPWS R14-08, check value at 230 K (from memory); meets the liquid line at 0.01 °C', () => {
    expect(icePressurePa(230)).toBeCloseTo(8.94735, 5);
    expect(ratio(icePressurePa(273.16), saturationPressurePa(273.16))).toBeLessThan(1e-4);
  });
});

describe('humid air', () => {
  it('dew-point: within 0.06 K of the Magnus form (Alduchov & Eskridge 1996), which is that much off', () => {
    const rows = [
      [20, 0.5, 9.261107],
      [23, 0.5, 12.019866],
      [25, 0.6, 16.697664],
      [30, 0.8, 26.170903],
      [50, 0.1, 10.121932],
    ] as const;
    for (const [temperatureC, relativeHumidity, printed] of rows) {
      expect(Math.abs(dewPointC({ temperatureC, relativeHumidity }) - printed)).toBeLessThan(0.06);
    }
  });

  it('absolute-humidity: gram of water in a cubic metre', () => {
    const rows = [
      [23, 0.5, 10.28279],
      [20, 0.85, 14.69613],
      [25, 0.1, 2.30353],
    ] as const;
    for (const [temperatureC, relativeHumidity, gram] of rows) {
      expect(absoluteHumidityKgPerM3({ temperatureC, relativeHumidity }) * 1e3).toBeCloseTo(gram, 5);
    }
    // desiccant-din: DIN 55474 takes 15 g/m³ at 20 °C and 85 %.
    expect(absoluteHumidityKgPerM3({ temperatureC: 20, relativeHumidity: 0.85 }) * 1e3).toBeCloseTo(15, 0);
  });

  it('heated-air-rh: room air of 23 °C and 50 % in a dryer', () => {
    const percent = [
      [45, 14.6488],
      [50, 11.3791],
      [55, 8.9171],
      [60, 7.0464],
      [70, 4.5046],
      [80, 2.9642],
    ] as const;
    for (const [celsius, printed] of percent) {
      const heated = humidityWhenHeated({ temperatureC: 23, relativeHumidity: 0.5 }, celsius);
      expect(heated * 100).toBeCloseTo(printed, 4);
    }
  });
});

describe('diffusion in a cylinder', () => {
  it('bessel-j0-zeros: to 12 decimals, and Abramowitz & Stegun, table 9.5 (from memory), to 10', () => {
    const derived = [
      2.404825557696, 5.520078110286, 8.653727912911, 11.79153443901, 14.93091770849, 18.07106396791,
      21.21163662988, 24.35247153075, 27.49347913204, 30.63460646843,
    ];
    const zeros = zerosOfJ0(10);
    derived.forEach((zero, n) => expect(ratio(zeros[n] ?? NaN, zero)).toBeLessThan(5e-13));
    const stored = [
      2.404825557695773, 5.520078110286311, 8.653727912911013, 11.79153443901428, 14.930917708487787,
    ];
    stored.forEach((zero, n) => expect(ratio(zeros[n] ?? NaN, zero)).toBeLessThan(1e-14));
  });

  it('J1 at the first zero of J0 is 0.5191474972894669 (tables, from memory)', () => {
    expect(besselJ01(2.404825557695773).j1).toBeCloseTo(0.5191474972894669, 13);
  });

  it('crank-cylinder: uptake against D t/a² (Crank 1975, equation 5.23), to 1e-9', () => {
    const rows = [
      [0.001, 0.0703588887],
      [0.005, 0.15450707],
      [0.01, 0.215473938],
      [0.02, 0.298563909],
      [0.05, 0.452120998],
      [0.1, 0.605824194],
      [0.2, 0.782147553],
      [0.3, 0.87797153],
      [0.5, 0.961621295],
      [0.8, 0.993229695],
      [1, 0.997870454],
    ] as const;
    for (const [time, printed] of rows) expect(Math.abs(cylinderUptake(time) - printed)).toBeLessThan(1e-9);
  });

  it('crank-cylinder-centre (Crank 1975, equation 5.22)', () => {
    const rows = [
      [0.05, 0.01290077978],
      [0.1, 0.1516448867],
      [0.2, 0.4985131394],
      [0.5, 0.9111102839],
    ] as const;
    for (const [time, printed] of rows) expect(Math.abs(cylinderCentre(time) - printed)).toBeLessThan(1e-10);
  });

  it('crank-cylinder-inverse', () => {
    const rows = [
      [0.5, 0.0630581942],
      [0.8, 0.214712736],
      [0.9, 0.334413248],
      [0.95, 0.454260761],
      [0.99, 0.732556387],
    ] as const;
    for (const [share, printed] of rows) {
      expect(ratio(cylinderTimeFor(share), printed)).toBeLessThan(1e-8);
    }
  });
});
