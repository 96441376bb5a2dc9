/**
 * Bessel functions of the first kind J0 and J1 for 0 ≤ x ≤ 1000, to about 1e-15 absolute.
 *
 * Method: Miller's backward recurrence J(k-1) = 2k/x J(k) - J(k+1), started far above x and scaled so that
 * J0 + 2 J2 + 2 J4 + … = 1 (Abramowitz & Stegun 1964, 9.1.27, 9.1.46 and 9.12).
 */
export function besselJ01(x: number): { readonly j0: number; readonly j1: number } {
  if (!(x >= 0 && x <= 1000)) throw new RangeError(`Bessel argument runs from 0 to 1000, not ${x}`);
  if (x === 0) return { j0: 1, j1: 0 };
  const start = 2 * Math.ceil((x + 30 + 8 * Math.cbrt(x)) / 2);
  let above = 0;
  let here = 1e-30;
  let sum = 0;
  for (let k = start; k >= 1; k--) {
    if (k % 2 === 0) sum += here;
    const below = ((2 * k) / x) * here - above;
    above = here;
    here = below;
    if (Math.abs(here) > 1e200) {
      here *= 1e-200;
      above *= 1e-200;
      sum *= 1e-200;
    }
  }
  const scale = here + 2 * sum;
  return { j0: here / scale, j1: above / scale };
}

/** The first `count` positive zeros of J0, smallest first, to 1e-13: McMahon's expansion (A&S 9.5.12), then Newton. */
export function zerosOfJ0(count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, index) => {
    const b = (index + 0.75) * Math.PI;
    let zero = b + 1 / (8 * b) - 124 / (3 * (8 * b) ** 3);
    for (let i = 0; i < 3; i++) {
      const { j0, j1 } = besselJ01(zero);
      zero += j0 / j1;
    }
    return zero;
  });
}
