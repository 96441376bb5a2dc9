import type { FitMargin } from '../../../src-core/contract/material-fit.ts';

/** One scale for all materials of a page, so that their bars can be compared: kelvin short and to spare. */
const SHORTEST_K = -60;
const WIDEST_K = 120;
/** A value that is known to the degree is still to be seen. */
const NARROWEST = 2;

/** Where a margin of temperature lies on the scale, percent of its width; what runs out of it is cut at its end. */
export function barOf({ low, high }: Pick<Extract<FitMargin, { kind: 'kelvin' }>, 'low' | 'high'>): {
  from: number;
  to: number;
  zero: number;
} {
  const place = (kelvin: number) =>
    (100 * (Math.min(WIDEST_K, Math.max(SHORTEST_K, kelvin)) - SHORTEST_K)) / (WIDEST_K - SHORTEST_K);
  const from = Math.min(place(low), 100 - NARROWEST);
  return { from, to: Math.max(place(high), from + NARROWEST), zero: place(0) };
}
