import type { MaxNetwork } from '../network/max-network.ts';

/**
 * Which variables occur together: each source touches what it raises, each settled mechanism its auxiliary.
 * Vertices are numbered apart from variables; sources with fewer than two links (which cannot widen anything) have none.
 * Causes that raise the same auxiliaries are twins and share a vertex: summing one out leaves the others nothing to widen,
 * so they go one after the other in any sensible order, and a case has ten times as many causes as kinds of them.
 */
export interface InteractionGraph {
  /** Variables of each vertex: an auxiliary, or `auxiliaries.length + source` for each of its twins. */
  readonly variables: readonly (readonly number[])[];
  /** log2 of the table over the first variable of a vertex and all its neighbours. */
  weight(v: number): number;
  /** Entries of the tables that summing out the twins of a vertex makes, one after the other. */
  cost(v: number): number;
  /** Pairs of neighbouring variables that are not neighbours of each other. */
  fill(v: number): number;
  /** Joins the neighbours, removes the vertex, returns the vertices whose scores may have changed. */
  eliminate(v: number): readonly number[];
}

/** Neighbourhoods are bit sets: `words` numbers of 32 bits a vertex. */
export function interactionGraph(network: MaxNetwork): InteractionGraph {
  const base = network.auxiliaries.length;
  const raises = network.sources.map((): number[] => []);
  for (const link of network.links) raises[link.source]?.push(link.auxiliary);
  const variables: number[][] = network.auxiliaries.map((_, a) => [a]);
  const vertexOfSource = new Int32Array(network.sources.length).fill(-1);
  const twins = new Map<string, number>();
  network.sources.forEach((source, s) => {
    const raised = raises[s] ?? [];
    const isCause = source.kind === 'cause';
    if (isCause && raised.length < 2) return;
    const key = isCause ? `${source.weights.length}:${raised.join()}` : `mechanism ${s}`;
    const vertex = twins.get(key) ?? variables.push([]) - 1;
    twins.set(key, vertex);
    vertexOfSource[s] = vertex;
    variables[vertex]?.push(base + s);
  });
  const twinsOf = Float64Array.from(variables, (twins) => twins.length);
  const log2Single = Float64Array.from(variables, ([variable = -1]) =>
    Math.log2(
      (variable < base
        ? network.auxiliaries[variable]?.states
        : network.sources[variable - base]?.weights.length) ?? 1,
    ),
  );
  const log2Size = log2Single.map((one, v) => one * (twinsOf[v] as number));
  // Twins are no neighbours of each other until an auxiliary that they raise is summed out before them.
  const isJoined = new Uint8Array(variables.length);
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
  const weight = (v: number): number => {
    let sum = (isJoined[v] === 1 ? log2Size[v] : log2Single[v]) as number;
    const count = readRing(v);
    for (let k = 0; k < count; k++) sum += log2Size[ring[k] as number] as number;
    return sum;
  };
  return {
    variables,
    weight,
    cost: (v) => {
      const many = twinsOf[v] as number;
      const first = 2 ** weight(v);
      if (isJoined[v] === 0) return many * first;
      let sum = 0;
      for (let gone = 0; gone < many; gone++) sum += first * 2 ** (-gone * (log2Single[v] as number));
      return sum;
    },
    fill: (v) => {
      const count = readRing(v);
      let missing = 0;
      for (let i = 0; i < count; i++) {
        const x = ring[i] as number;
        const many = twinsOf[x] as number;
        if (isJoined[x] === 0) missing += (many * (many - 1)) / 2;
        for (let j = i + 1; j < count; j++) {
          const y = ring[j] as number;
          const isEdge = ((sets[x * words + (y >> 5)] as number) >>> (y & 31)) & 1;
          if (!isEdge) missing += many * (twinsOf[y] as number);
        }
      }
      return missing;
    },
    eliminate: (v) => {
      const count = readRing(v);
      const neighbours = ring.slice(0, count);
      const changed = new Uint32Array(sets.subarray(v * words, (v + 1) * words));
      let isFilled = false;
      for (const w of neighbours) {
        isFilled ||= missingFrom(v, w) > 1 || (isJoined[w] === 0 && (twinsOf[w] as number) > 1);
        isJoined[w] = 1;
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
