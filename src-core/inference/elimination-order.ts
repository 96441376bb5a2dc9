import type { MaxNetwork } from './max-network.ts';

/**
 * Order in which variables are summed out. Variables are numbered: accumulators first, then sources
 * (`accumulators.length + source`). Sources that link to at most one accumulator need no place in the order.
 */
export interface EliminationOrder {
  readonly variables: readonly number[];
  /** Rough count of table entries touched. */
  readonly cost: number;
  /** log2 of the largest table. */
  readonly log2Width: number;
}

/**
 * Greedy order over the graph in which each source touches what it raises and each settled mechanism touches
 * its accumulator. Of two greedy rules (least table, least fill: Koller & Friedman 2009, section 9.4.3.2) the
 * cheaper outcome is taken. A cause that nearly every finding shares is left for last by either rule, which is
 * conditioning on it (cutset conditioning). A mechanism is only summed out after its accumulator has settled.
 */
export function eliminationOrder(network: MaxNetwork): EliminationOrder {
  const byTable = greedyOrder(network, (graph, v) => graph.weight(v) * 64 + Math.min(63, graph.fill(v)));
  if (byTable.cost < WORTH_A_SECOND_LOOK) return byTable;
  const byFill = greedyOrder(network, (graph, v) => graph.fill(v) * 64 + graph.weight(v));
  return byFill.cost < byTable.cost ? byFill : byTable;
}

/** Below this a second search costs more than it can save. */
const WORTH_A_SECOND_LOOK = 50_000;

function greedyOrder(network: MaxNetwork, score: (graph: Graph, v: number) => number): EliminationOrder {
  const graph = interactionGraph(network);
  const base = network.accumulators.length;
  const remaining = new Set(graph.vertices);
  const isBlocked = (v: number) => {
    const settledBy = v < base ? -1 : (network.sources[v - base]?.settledBy ?? -1);
    return settledBy >= 0 && remaining.has(settledBy);
  };
  const scores = new Map<number, number>();
  for (const v of remaining) scores.set(v, score(graph, v));
  const variables: number[] = [];
  let cost = 0;
  let log2Width = 0;
  while (remaining.size > 0) {
    let best = -1;
    let bestScore = Infinity;
    for (const v of remaining) {
      const value = scores.get(v) ?? Infinity;
      if (value < bestScore && !isBlocked(v)) {
        best = v;
        bestScore = value;
      }
    }
    const width = graph.weight(best);
    log2Width = Math.max(log2Width, width);
    cost += 2 ** width;
    variables.push(best);
    remaining.delete(best);
    for (const v of graph.eliminate(best)) scores.set(v, score(graph, v));
  }
  return { variables, cost, log2Width };
}

interface Graph {
  readonly vertices: readonly number[];
  /** log2 of the table over a vertex and its neighbours. */
  weight(v: number): number;
  /** Pairs of neighbours that are not neighbours of each other. */
  fill(v: number): number;
  /** Joins the neighbours, removes the vertex, returns the vertices whose scores may have changed. */
  eliminate(v: number): ReadonlySet<number>;
}

function interactionGraph(network: MaxNetwork): Graph {
  const base = network.accumulators.length;
  const neighbours = new Map<number, Set<number>>();
  const size = new Map<number, number>();
  const degree = new Int32Array(network.sources.length);
  for (const link of network.links) degree[link.source] = (degree[link.source] ?? 0) + 1;
  network.accumulators.forEach((accumulator, a) => {
    neighbours.set(a, new Set());
    size.set(a, Math.log2(accumulator.states));
  });
  network.sources.forEach((source, s) => {
    if (source.kind === 'cause' && (degree[s] ?? 0) < 2) return;
    neighbours.set(base + s, new Set());
    size.set(base + s, Math.log2(source.weights.length));
    if (source.settledBy >= 0) join(neighbours, base + s, source.settledBy);
  });
  for (const link of network.links) {
    if (neighbours.has(base + link.source)) join(neighbours, base + link.source, link.accumulator);
  }
  const around = (v: number): Set<number> => neighbours.get(v) ?? new Set();
  return {
    vertices: [...neighbours.keys()],
    weight: (v) => {
      let sum = size.get(v) ?? 0;
      for (const w of around(v)) sum += size.get(w) ?? 0;
      return sum;
    },
    fill: (v) => {
      const ring = [...around(v)];
      let missing = 0;
      for (let i = 0; i < ring.length; i++) {
        const next = around(ring[i] ?? -1);
        for (let j = i + 1; j < ring.length; j++) if (!next.has(ring[j] ?? -1)) missing++;
      }
      return missing;
    },
    eliminate: (v) => {
      const ring = [...around(v)];
      const changed = new Set(ring);
      let filled = false;
      for (const w of ring) around(w).delete(v);
      for (let i = 0; i < ring.length; i++) {
        for (let j = i + 1; j < ring.length; j++) {
          const a = ring[i] ?? -1;
          const b = ring[j] ?? -1;
          if (around(a).has(b)) continue;
          join(neighbours, a, b);
          filled = true;
        }
      }
      // A new edge may complete pairs around a common neighbour of its ends.
      if (filled) for (const w of ring) for (const x of around(w)) changed.add(x);
      neighbours.delete(v);
      return changed;
    },
  };
}

function join(neighbours: Map<number, Set<number>>, a: number, b: number): void {
  neighbours.get(a)?.add(b);
  neighbours.get(b)?.add(a);
}
