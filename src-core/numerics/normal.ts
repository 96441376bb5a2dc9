/**
 * Chance that a standard normal deviate lies below z.
 *
 * Series for |z| < 3 and continued fraction beyond (Abramowitz & Stegun 1964, 26.2.11 and 26.2.14); error below 1e-12.
 */
export function normalBelow(z: number): number {
  if (Number.isNaN(z)) throw new RangeError('deviate is not a number');
  const size = Math.abs(z);
  if (size > 40) return z > 0 ? 1 : 0;
  const density = Math.exp((-size * size) / 2) / Math.sqrt(2 * Math.PI);
  if (size < 3) {
    let term = size;
    let sum = size;
    for (let k = 1; term > sum * 1e-17; k++) {
      term *= (size * size) / (2 * k + 1);
      sum += term;
    }
    return z < 0 ? 0.5 - density * sum : 0.5 + density * sum;
  }
  let fraction = 0;
  for (let k = 120; k >= 1; k--) fraction = k / (size + fraction);
  const tail = density / (size + fraction);
  return z < 0 ? tail : 1 - tail;
}
