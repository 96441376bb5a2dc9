import { icePressurePa, saturationPressurePa, saturationTemperatureK } from './saturation-pressure.ts';

/** 0 °C in kelvin. */
export const ZERO_CELSIUS_K = 273.15;
/** Specific gas constant of water vapour, J/(kg K) (IAPWS). */
export const VAPOUR_GAS_CONSTANT = 461.526;

/** Air of a room: temperature in °C (0 to 150) and relative humidity as a fraction (0 to 1). */
export interface Air {
  readonly temperatureC: number;
  readonly relativeHumidity: number;
}

/** Pressure of the water vapour in the air, Pa. */
export function vapourPressurePa(air: Air): number {
  return air.relativeHumidity * saturationAtC(requireAir(air).temperatureC);
}

/**
 * Temperature to which the air has to cool before dew forms, °C; at most the air's own.
 *
 * A RangeError where it lies below 0 °C: such air gives frost, and its dew point is not defined here.
 */
export function dewPointC(air: Air): number {
  const pressure = vapourPressurePa(air);
  if (pressure < saturationPressurePa(ZERO_CELSIUS_K) * (1 - 1e-9)) {
    throw new RangeError(
      `air of ${air.temperatureC} °C and relative humidity ${air.relativeHumidity} gives frost, not dew: the dew point is known from 0 °C up`,
    );
  }
  return saturationTemperatureK(pressure) - ZERO_CELSIUS_K;
}

/** Pressure of the water vapour in air of this dew point, Pa; below 0 °C, to -100 °C, it is read as the frost point. */
export function pressureAtDewPointPa(dewPoint: number): number {
  if (!(dewPoint >= -100 && dewPoint <= 100)) {
    throw new RangeError(`a dew point lies from -100 to 100 °C, not at ${dewPoint} °C`);
  }
  return dewPoint < 0 ? icePressurePa(dewPoint + ZERO_CELSIUS_K) : saturationAtC(dewPoint);
}

/** Water vapour per volume of air, kg/m³, as an ideal gas. */
export function absoluteHumidityKgPerM3(air: Air): number {
  return vapourPressurePa(air) / (VAPOUR_GAS_CONSTANT * (air.temperatureC + ZERO_CELSIUS_K));
}

/**
 * Relative humidity (fraction) of air with this vapour pressure at this temperature. Above 1 water would condense; such air
 * is saturated, so the answer is at most 1.
 */
export function humidityAtPressure(pressurePa: number, temperatureC: number): number {
  return Math.min(1, pressurePa / saturationAtC(requireTemperature(temperatureC)));
}

/** Relative humidity (fraction) after heating or cooling without adding or removing water, at the same total pressure. */
export function humidityWhenHeated(air: Air, toTemperatureC: number): number {
  return humidityAtPressure(vapourPressurePa(air), toTemperatureC);
}

/** The air itself, or a RangeError that names what is wrong with it. */
export function requireAir<A extends Air>(air: A, where = 'air'): A {
  requireTemperature(air.temperatureC, where);
  if (!(air.relativeHumidity >= 0 && air.relativeHumidity <= 1)) {
    throw new RangeError(
      `${where}: relative humidity is a fraction from 0 to 1 (50 % is 0.5), not ${air.relativeHumidity}`,
    );
  }
  return air;
}

function requireTemperature(temperatureC: number, where = 'air'): number {
  if (!(temperatureC >= 0 && temperatureC <= 150)) {
    throw new RangeError(
      `${where}: temperature runs from 0 to 150 °C, not ${temperatureC} °C; frost is not covered`,
    );
  }
  return temperatureC;
}

function saturationAtC(temperatureC: number): number {
  return saturationPressurePa(temperatureC + ZERO_CELSIUS_K);
}
