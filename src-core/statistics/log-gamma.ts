/** B(2k) / (2k (2k - 1)), the coefficients of Stirling's series. */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156];
/** From here on seven terms of the series are as good as the arithmetic. */
const LARGE = 12;

/**
 * Natural logarithm of the gamma function for x > 0: Stirling's series (Abramowitz and Stegun 6.1.41), with small arguments
 * moved up by the recurrence. Relative error below 1e-14. Throws RangeError for anything else.
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`the gamma function is needed above 0, not at ${x}`);
  let shift = 0;
  let at = x;
  for (; at < LARGE; at++) shift += Math.log(at);
  const inverse = 1 / at;
  let power = inverse;
  let sum = 0;
  for (const coefficient of STIRLING) {
    sum += coefficient * power;
    power *= inverse * inverse;
  }
  return (at - 0.5) * Math.log(at) - at + 0.5 * Math.log(2 * Math.PI) + sum - shift;
}
