/** Natural logarithm of n! for n = 0, 1, 2, …; so that large counts neither overflow nor vanish. */
export function logFactorial(n: number): number {
  let sum = 0;
  for (let k = 2; k <= n; k++) sum += Math.log(k);
  return sum;
}
