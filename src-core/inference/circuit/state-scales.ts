import type { MaxNetwork } from '../network/max-network.ts';

/**
 * A power of two for each state of each auxiliary, near the state's probability if all sources were
 * independent. Tables store weights divided by it, so that a dozen raises of 1e-30 each do not underflow. Powers
 * of two divide without rounding.
 */
export function stateScales(network: MaxNetwork): readonly Float64Array[] {
  const expected = network.auxiliaries.map((auxiliary) => Float64Array.from(auxiliary.start));
  const linksOf = new Map<number, (typeof network.links)[number][]>();
  for (const link of network.links) {
    const list = linksOf.get(link.auxiliary);
    if (list) list.push(link);
    else linksOf.set(link.auxiliary, [link]);
  }
  const addLinks = (a: number) => {
    const target = expected[a];
    const states = network.auxiliaries[a]?.states ?? 0;
    if (!target) return;
    for (const link of linksOf.get(a) ?? []) {
      const source = network.sources[link.source];
      if (!source) continue;
      const chances = source.settledBy < 0 ? source.weights : expected[source.settledBy];
      for (let s = 1; s < source.weights.length; s++) {
        for (let k = 1; k < states; k++) {
          target[k] = (target[k] ?? 0) + (chances?.[s] ?? 0) * (link.rows[s * states + k] ?? 0);
        }
      }
    }
  };
  network.auxiliaries.forEach((auxiliary, a) => auxiliary.settles >= 0 && addLinks(a));
  network.auxiliaries.forEach((auxiliary, a) => auxiliary.settles < 0 && addLinks(a));
  return expected.map((chances) => chances.map((value, k) => (k === 0 ? 1 : powerOfTwoBelow(value))));
}

/** Largest power of two not above `value`, at most 1; 1 for 0, where there is nothing to scale. */
export function powerOfTwoBelow(value: number): number {
  if (!(value > 0)) return 1;
  return Math.min(1, 2 ** Math.max(-1000, Math.floor(Math.log2(value))));
}
