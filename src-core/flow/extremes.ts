/** The smallest of the values, Infinity of none. Spreading a long log into `Math.min` overflows the stack. */
export function smallest(values: readonly number[]): number {
  return values.reduce((least, one) => Math.min(least, one), Infinity);
}

/** The largest of the values, -Infinity of none. */
export function largest(values: readonly number[]): number {
  return values.reduce((most, one) => Math.max(most, one), -Infinity);
}
