/** Lowest temperature of the liquid line, 0 °C, and the critical point (IAPWS R7-97). */
const LOWEST_K = 273.15;
const CRITICAL_K = 647.096;
const TRIPLE_POINT_K = 273.16;
const TRIPLE_POINT_PA = 611.657;
const LOWEST_ICE_K = 173.15;

/** Coefficients n1 … n10 of IAPWS-IF97 region 4, table 34. */
const N = [
  0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.1202082470247e5, -0.32325550322333e7,
  0.1491510861353e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
] as const;
const [N1, N2, N3, N4, N5, N6, N7, N8, N9, N10] = N;

/**
 * Pressure of water vapour over liquid water, Pa.
 *
 * Range: 273.15 to 647.096 K; a RangeError beyond. Source: IAPWS R7-97 (IAPWS-IF97), region 4, equation 30.
 */
export function saturationPressurePa(temperatureK: number): number {
  if (!(temperatureK >= LOWEST_K && temperatureK <= CRITICAL_K)) {
    throw new RangeError(
      `temperature over liquid water runs from ${LOWEST_K} to ${CRITICAL_K} K, not ${temperatureK} K`,
    );
  }
  const theta = temperatureK + N9 / (temperatureK - N10);
  const a = theta * theta + N1 * theta + N2;
  const b = N3 * theta * theta + N4 * theta + N5;
  const c = N6 * theta * theta + N7 * theta + N8;
  return 1e6 * ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4;
}

/**
 * Temperature at which water vapour of this pressure is in equilibrium with liquid water, K.
 *
 * Range: 611.213 Pa (0 °C) to 22.064 MPa; a RangeError beyond, below it there is frost instead of dew.
 * Source: IAPWS R7-97, region 4, equation 31.
 */
export function saturationTemperatureK(pressurePa: number): number {
  const lowest = saturationPressurePa(LOWEST_K);
  // The last digits of the two equations differ at the very ends.
  if (!(pressurePa >= lowest * (1 - 1e-9) && pressurePa <= 22.0640001e6)) {
    throw new RangeError(
      `pressure over liquid water runs from ${lowest.toFixed(1)} Pa (0 °C) to 22.064 MPa, not ${pressurePa} Pa`,
    );
  }
  const beta = (pressurePa / 1e6) ** 0.25;
  const e = beta * beta + N3 * beta + N6;
  const f = N1 * beta * beta + N4 * beta + N7;
  const g = N2 * beta * beta + N5 * beta + N8;
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  return (N10 + d - Math.sqrt((N10 + d) ** 2 - 4 * (N9 + N10 * d))) / 2;
}

/**
 * Pressure of water vapour over ice, Pa: what the frost point of very dry air means.
 *
 * Range: 173.15 to 273.16 K; a RangeError beyond. Source: IAPWS R14-08 (2011), sublimation pressure, equation 6.
 */
export function icePressurePa(temperatureK: number): number {
  if (!(temperatureK >= LOWEST_ICE_K && temperatureK <= TRIPLE_POINT_K)) {
    throw new RangeError(
      `temperature over ice runs from ${LOWEST_ICE_K} to ${TRIPLE_POINT_K} K, not ${temperatureK} K`,
    );
  }
  const theta = temperatureK / TRIPLE_POINT_K;
  const exponent =
    -21.2144006 * theta ** 0.00333333333 + 27.3203819 * theta ** 1.20666667 - 6.1059813 * theta ** 1.70333333;
  return TRIPLE_POINT_PA * Math.exp(exponent / theta);
}
