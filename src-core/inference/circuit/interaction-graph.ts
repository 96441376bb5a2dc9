import type { MaxNetwork } from '../network/max-network.ts';

/**
 * Which variables occur together: each source touches what it raises, each settled mechanism its auxiliary.
 * Vertices are numbered apart from variables; sources with fewer than two links (which cannot widen anything) have none.
 */
export interface InteractionGraph {
  /** Variable of each vertex: an auxiliary, or `auxiliaries.length + source`. */
  readonly variables: readonly number[];
  /** log2 of the table over a vertex and its neighbours. */
  weight(v: number): number;
  /** Pairs of neighbours that are not neighbours of each other. */
  fill(v: number): number;
  /** Joins the neighbours, removes the vertex, returns the vertices whose scores may have changed. */
  eliminate(v: number): readonly number[];
}

/** Neighbourhoods are bit sets: `words` numbers of 32 bits a vertex. */
export function interactionGraph(network: MaxNetwork): InteractionGraph {
  const base = network.auxiliaries.length;
  const degree = new Int32Array(network.sources.length);
  for (const link of network.links) degree[link.source] = (degree[link.source] ?? 0) + 1;
  const variables = network.auxiliaries.map((_, a) => a);
  const vertexOfSource = new Int32Array(network.sources.length).fill(-1);
  network.sources.forEach((source, s) => {
    if (source.kind === 'cause' && (degree[s] ?? 0) < 2) return;
    vertexOfSource[s] = variables.length;
    variables.push(base + s);
  });
  const log2Size = Float64Array.from(variables, (variable) =>
    Math.log2(
      (variable < base
        ? network.auxiliaries[variable]?.states
        : network.sources[variable - base]?.weights.length) ?? 1,
    ),
  );
  const words = Math.ceil(variables.length / 32);
  const sets = new Uint32Array(words * variables.length);
  const connect = (a: number, b: number) => {
    sets[a * words + (b >> 5)] = (sets[a * words + (b >> 5)] as number) | (1 << (b & 31));
    sets[b * words + (a >> 5)] = (sets[b * words + (a >> 5)] as number) | (1 << (a & 31));
  };
  network.sources.forEach((source, s) => {
    if (source.settledBy >= 0) connect(vertexOfSource[s] ?? -1, source.settledBy);
  });
  for (const link of network.links) {
    const v = vertexOfSource[link.source] ?? -1;
    if (v >= 0) connect(v, link.auxiliary);
  }

  const ring = new Int32Array(variables.length);
  const readRing = (v: number): number => {
    let count = 0;
    for (let w = 0; w < words; w++) {
      let bits = sets[v * words + w] as number;
      while (bits !== 0) {
        const low = bits & -bits;
        ring[count++] = w * 32 + (31 - Math.clz32(low));
        bits ^= low;
      }
    }
    return count;
  };
  const missingFrom = (v: number, w: number): number => {
    let missing = 0;
    for (let k = 0; k < words; k++)
      missing += ones((sets[v * words + k] as number) & ~(sets[w * words + k] as number));
    return missing;
  };
  return {
    variables,
    weight: (v) => {
      let sum = log2Size[v] as number;
      const count = readRing(v);
      for (let k = 0; k < count; k++) sum += log2Size[ring[k] as number] as number;
      return sum;
    },
    fill: (v) => {
      const count = readRing(v);
      let missing = 0;
      // Each neighbour misses itself; each missing pair is counted from both ends.
      for (let k = 0; k < count; k++) missing += missingFrom(v, ring[k] as number) - 1;
      return missing / 2;
    },
    eliminate: (v) => {
      const count = readRing(v);
      const neighbours = ring.slice(0, count);
      const changed = new Uint32Array(sets.subarray(v * words, (v + 1) * words));
      let isFilled = false;
      for (const w of neighbours) {
        isFilled ||= missingFrom(v, w) > 1;
        for (let k = 0; k < words; k++) {
          sets[w * words + k] = (sets[w * words + k] as number) | (changed[k] as number);
        }
        sets[w * words + (w >> 5)] = (sets[w * words + (w >> 5)] as number) & ~(1 << (w & 31));
        sets[w * words + (v >> 5)] = (sets[w * words + (v >> 5)] as number) & ~(1 << (v & 31));
      }
      sets.fill(0, v * words, (v + 1) * words);
      // A new edge may complete pairs around a common neighbour of its ends.
      if (isFilled) {
        for (const w of neighbours) {
          for (let k = 0; k < words; k++)
            changed[k] = (changed[k] as number) | (sets[w * words + k] as number);
        }
      }
      const list: number[] = [];
      for (let x = 0; x < variables.length; x++)
        if (((changed[x >> 5] as number) >>> (x & 31)) & 1) list.push(x);
      return list;
    },
  };
}

/** Number of bits set (Warren, Hacker's Delight, 2nd ed. (2013), figure 5-2). */
function ones(bits: number): number {
  let x = bits - ((bits >>> 1) & 0x55555555);
  x = (x & 0x33333333) + ((x >>> 2) & 0x33333333);
  return Math.imul((x + (x >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}
