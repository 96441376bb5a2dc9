import { CHAIN_LENGTH, chainArrays, raisingMatrices } from './cause-chain.ts';
import type { CausesNode, Circuit, CircuitNode, SettleNode } from './circuit.ts';
import { eliminationOrder, type EliminationOrder } from './elimination-order.ts';
import type { MaxLink, MaxNetwork } from '../network/max-network.ts';
import { Arena } from './arena.ts';
import { stateScales } from './state-scales.ts';
import { joinSpace } from './join-tables.ts';
import { joinPlan } from './join-plan.ts';
import { joinPairs, tableShape, unionAxes, type TableShape } from './table-shape.ts';

export interface WidthLimits {
  /** Most entries in one table. */
  readonly tableEntries: number;
  /** Most terms summed in one forward run. */
  readonly terms: number;
}

/** About 0.2 s and 200 MB at worst; networks of the shipped shape stay a thousand times below. */
export const DEFAULT_LIMITS: WidthLimits = { tableEntries: 2 ** 20, terms: 2 ** 23 };

/** Orders below this cost stay within the default limits as a matter of course. */
const CHEAP_ORDER = 20_000;

/**
 * Compiles a max network by bucket elimination: variables are summed out in order, each time joining all
 * tables that mention the variable (Dechter, Bucket elimination, AIJ 113 (1999); heterogeneous factors of
 * Zhang & Poole 1996). Returns null when a limit would be passed.
 */
export function compileCircuit(network: MaxNetwork, limits: WidthLimits = DEFAULT_LIMITS): Circuit | null {
  const order = fittingOrder(network, limits);
  return order && new CircuitBuilder(network, order.variables, limits, false).build();
}

/** The elimination order to use, or null when it would pass a limit. */
export function fittingOrder(network: MaxNetwork, limits: WidthLimits): EliminationOrder | null {
  const order = eliminationOrder(network);
  if (2 ** order.log2Width > 16 * limits.tableEntries) return null;
  // A dry run finds out whether the limits hold before anything large is made.
  const isCheap = order.cost < CHEAP_ORDER && limits.terms >= DEFAULT_LIMITS.terms;
  return isCheap || new CircuitBuilder(network, order.variables, limits, true).build() ? order : null;
}

class CircuitBuilder {
  private readonly nodes: CircuitNode[] = [];
  private readonly roots: number[] = [];
  private readonly buckets: number[][] = [];
  private readonly base: number;
  private readonly position: Int32Array;
  private readonly readerOf: Int32Array;
  private readonly weights: Float64Array[];
  private readonly scales: readonly Float64Array[];
  private readonly pairs: ReturnType<typeof joinPairs>[];
  private readonly arena = new Arena();
  private terms = 0;
  private largestTable = 1;
  private largestChainTable = 1;
  private largestSpace = 0;
  private readonly network: MaxNetwork;
  private readonly order: readonly number[];
  private readonly limits: WidthLimits;
  /** Shapes only: no table has entries. */
  private readonly isDry: boolean;

  constructor(network: MaxNetwork, order: readonly number[], limits: WidthLimits, isDry: boolean) {
    this.isDry = isDry;
    this.network = network;
    this.order = order;
    this.limits = limits;
    this.base = network.auxiliaries.length;
    // Sources outside the order never become an axis.
    this.position = new Int32Array(this.base + network.sources.length).fill(-1);
    order.forEach((variable, at) => (this.position[variable] = at));
    this.readerOf = new Int32Array(network.sources.length).fill(-1);
    this.scales = stateScales(network);
    this.pairs = network.auxiliaries.map((auxiliary, a) => joinPairs(auxiliary, this.scaleOf(a)));
    this.weights = network.sources.map(({ weights, settledBy }) => {
      if (settledBy < 0) return Float64Array.from(weights);
      const scale = this.scaleOf(settledBy);
      return weights.map((weight, s) => weight * (scale[s] ?? 1));
    });
  }

  build(): Circuit | null {
    this.order.forEach(() => this.buckets.push([]));
    this.addLeaves();
    for (let at = 0; at < this.order.length; at++) {
      const bucket = this.buckets[at] ?? [];
      if (bucket.length === 0) continue;
      const joined = this.joinAll(bucket);
      if (joined < 0) return null;
      this.place(this.sumOut(joined, this.order[at] ?? -1));
    }
    if (this.largestTable > this.limits.tableEntries) return null;
    return {
      nodes: this.nodes,
      roots: this.roots,
      logConstant: this.network.logConstant,
      weights: this.weights,
      readerOf: this.readerOf,
      partOf: partsOf(this.nodes, this.roots),
      weightDerivatives: this.weights.map((weights) => new Float64Array(weights.length)),
      scratch: new Float64Array(this.isDry ? 0 : Math.max(3 * this.largestChainTable, this.largestSpace)),
      largestTable: this.largestTable,
      terms: this.terms,
    };
  }

  private addLeaves(): void {
    this.network.auxiliaries.forEach((auxiliary, a) => {
      const shape = tableShape([a], [auxiliary.states]);
      const scale = this.scaleOf(a);
      this.place(
        this.add({
          ...this.table(
            shape,
            auxiliary.start.map((w, k) => w / (scale[k] ?? 1)),
          ),
          kind: 'leaf',
        }),
      );
    });
    const bySource = new Map<number, MaxLink[]>();
    for (const link of this.network.links) {
      const list = bySource.get(link.source);
      if (list) list.push(link);
      else bySource.set(link.source, [link]);
    }
    const twins = new Map<string, { source: number; links: readonly MaxLink[] }[]>();
    for (const [source, links] of bySource) {
      const at = this.position[this.base + source] ?? -1;
      // A cause whose every neighbour outlives it in the order is summed out before anything else is joined.
      if (
        at < 0 ||
        (this.isCause(source) && links.every((link) => (this.position[link.auxiliary] ?? -1) > at))
      ) {
        const sorted = [...links].sort(
          (a, b) => (this.position[b.auxiliary] ?? 0) - (this.position[a.auxiliary] ?? 0),
        );
        const states = this.network.sources[source]?.weights.length ?? 0;
        const key = `${states}:${sorted.map((link) => link.auxiliary).join()}`;
        const alike = twins.get(key) ?? [];
        twins.set(key, alike);
        alike.push({ source, links: sorted });
      } else {
        for (const link of links) this.place(this.add(this.linkLeaf(link)));
      }
    }
    for (const alike of twins.values()) {
      for (let from = 0; from < alike.length; from += CHAIN_LENGTH) {
        this.place(this.add(this.causesNode(alike.slice(from, from + CHAIN_LENGTH))));
      }
    }
  }

  /** Causes with links to the same auxiliaries, the one summed out last first. */
  private causesNode(
    alike: readonly { readonly source: number; readonly links: readonly MaxLink[] }[],
  ): CausesNode {
    const [{ source = -1, links = [] } = {}] = alike;
    const shape = this.shapeOf(links.map((link) => link.auxiliary));
    const states = this.network.sources[source]?.weights.length ?? 0;
    const stepSize = (states - 1) * shape.sizes.reduce((sum, size) => sum + size * size, 0);
    const { before, steps } = chainArrays(alike.length, shape.size, stepSize, this.arena, this.isDry);
    const scales = links.map((link) => this.scaleOf(link.auxiliary));
    alike.forEach((one, k) => {
      this.readerOf[one.source] = this.nodes.length;
      if (this.isDry) return;
      const into = steps.subarray(k * stepSize, (k + 1) * stepSize);
      raisingMatrices(one.links, this.network.auxiliaries, scales, states, into);
    });
    this.terms += alike.length * (states - 1) * shape.size * links.length;
    this.largestChainTable = Math.max(this.largestChainTable, shape.size);
    const sources = Int32Array.from(alike, (one) => one.source);
    return { ...this.table(shape), kind: 'causes', sources, states, before, steps };
  }

  private linkLeaf(link: MaxLink): CircuitNode {
    const variable = this.base + link.source;
    const sourceIsOuter = (this.position[variable] ?? 0) > (this.position[link.auxiliary] ?? 0);
    const shape = this.shapeOf(sourceIsOuter ? [variable, link.auxiliary] : [link.auxiliary, variable]);
    const states = this.network.auxiliaries[link.auxiliary]?.states ?? 0;
    const scale = this.scaleOf(link.auxiliary);
    const value = this.arena.floats(shape.size);
    const sourceStride = shape.strides[sourceIsOuter ? 0 : 1] ?? 0;
    const stateStride = shape.strides[sourceIsOuter ? 1 : 0] ?? 0;
    link.rows.forEach((weight, index) => {
      const state = index % states;
      value[Math.floor(index / states) * sourceStride + state * stateStride] = weight / (scale[state] ?? 1);
    });
    return { ...this.table(shape, value), kind: 'leaf' };
  }

  /** Joins tables pairwise, each time the smallest with the partner that gives the smallest result. */
  private joinAll(bucket: readonly number[]): number {
    const open = [...bucket].sort((a, b) => this.sizeOf(a) - this.sizeOf(b));
    while (open.length > 1) {
      const first = open.shift() ?? -1;
      let best = 0;
      let bestSize = Infinity;
      for (let k = 0; k < open.length && bestSize > this.sizeOf(first); k++) {
        const size = this.unionSize(first, open[k] ?? -1);
        if (size < bestSize) {
          best = k;
          bestSize = size;
        }
      }
      const [second = -1] = open.splice(best, 1);
      const joined = this.join(second, first);
      if (joined < 0) return -1;
      const size = this.sizeOf(joined);
      let at = open.length;
      while (at > 0 && this.sizeOf(open[at - 1] ?? -1) > size) at--;
      open.splice(at, 0, joined);
    }
    return open[0] ?? -1;
  }

  private join(left: number, right: number): number {
    const a = this.nodes[left];
    const b = this.nodes[right];
    if (!a || !b) return -1;
    let terms = 1;
    for (const variable of unionAxes(a.shape.axes, b.shape.axes, this.position)) {
      const isShared = a.shape.axes.includes(variable) && b.shape.axes.includes(variable);
      terms *=
        isShared && variable < this.base ? (this.pairs[variable]?.count ?? 1) : this.axisSize(variable);
    }
    this.terms += terms;
    if (this.terms > this.limits.terms || this.unionSize(left, right) > this.limits.tableEntries) return -1;
    const shape = this.shapeOf(unionAxes(a.shape.axes, b.shape.axes, this.position));
    if (this.isDry) return this.add({ ...this.table(shape), kind: 'leaf' });
    const plan = joinPlan(a.shape, b.shape, shape, (variable) => this.pairs[variable] ?? null);
    this.largestSpace = Math.max(this.largestSpace, joinSpace(plan));
    const node = this.add({ ...this.table(shape), kind: 'join', left, right, plan });
    a.parent = node;
    b.parent = node;
    return node;
  }

  private sumOut(from: number, variable: number): number {
    const below = this.nodes[from];
    if (!below) return -1;
    const auxiliary = this.network.auxiliaries[variable];
    if (auxiliary && auxiliary.settles >= 0) return this.settle(from, auxiliary.settles);
    const axes = below.shape.axes.slice(0, -1);
    const shape = this.shapeOf(axes);
    const source = variable < this.base ? -1 : variable - this.base;
    if (source >= 0) this.readerOf[source] = this.nodes.length;
    const scale = auxiliary ? this.scaleOf(variable) : null;
    const closes = auxiliary?.closes ? auxiliary.closes.map((w, k) => w * (scale?.[k] ?? 1)) : null;
    const node = this.add({
      ...this.table(shape),
      kind: 'sum',
      from,
      source,
      closes,
      auxiliary: closes ? variable : -1,
      unclosed: closes ? scale : null,
      exponent: 0,
    });
    below.parent = node;
    return node;
  }

  private settle(from: number, source: number): number {
    const below = this.nodes[from];
    if (!below) return -1;
    const target = this.base + source;
    const rest = below.shape.axes.slice(0, -1);
    const axes = unionAxes(rest, [target], this.position);
    const shape = this.shapeOf(axes);
    const picks = this.arena.ints(this.isDry ? 0 : shape.size);
    for (let entry = 0; entry < picks.length; entry++) {
      let pick = 0;
      axes.forEach((axis, k) => {
        const state = Math.floor(entry / (shape.strides[k] ?? 1)) % (shape.sizes[k] ?? 1);
        if (axis === target) pick += state;
        const at = rest.indexOf(axis);
        if (at >= 0) pick += state * (below.shape.strides[at] ?? 0);
      });
      picks[entry] = pick;
    }
    const node: SettleNode = {
      ...this.table(shape),
      kind: 'settle',
      from,
      picks,
    };
    below.parent = this.add(node);
    return below.parent;
  }

  private add(node: CircuitNode): number {
    this.largestTable = Math.max(this.largestTable, node.shape.size);
    return this.nodes.push(node) - 1;
  }

  /** Puts a table into the bucket of the axis that is summed out first; a number is a root. */
  private place(node: number): void {
    const variable = this.nodes[node]?.shape.axes.at(-1);
    if (variable === undefined) this.roots.push(node);
    else this.buckets[this.position[variable] ?? -1]?.push(node);
  }

  private table(shape: TableShape, value = this.arena.floats(this.isDry ? 0 : shape.size)) {
    const adjoint = this.arena.floats(this.isDry ? 0 : shape.size);
    return { shape, value, adjoint, variant: null, parent: -1 };
  }

  private shapeOf(axes: readonly number[]): TableShape {
    return tableShape(
      axes,
      axes.map((axis) => this.axisSize(axis)),
    );
  }

  private axisSize(variable: number): number {
    if (variable < this.base) return this.network.auxiliaries[variable]?.states ?? 1;
    return this.network.sources[variable - this.base]?.weights.length ?? 1;
  }

  private unionSize(a: number, b: number): number {
    const axesOfA = this.nodes[a]?.shape.axes ?? [];
    let size = this.sizeOf(a);
    for (const axis of this.nodes[b]?.shape.axes ?? [])
      if (!axesOfA.includes(axis)) size *= this.axisSize(axis);
    return size;
  }

  private sizeOf(node: number): number {
    return this.nodes[node]?.shape.size ?? 0;
  }

  private scaleOf(auxiliary: number): Float64Array {
    return this.scales[auxiliary] ?? new Float64Array(0);
  }

  private isCause(source: number): boolean {
    return this.network.sources[source]?.settledBy === -1;
  }
}

/** Part (index into `roots`) of each node, from the top down. */
function partsOf(nodes: readonly CircuitNode[], roots: readonly number[]): Int32Array {
  const part = new Int32Array(nodes.length).fill(-1);
  roots.forEach((root, index) => (part[root] = index));
  for (let k = nodes.length - 1; k >= 0; k--) {
    const parent = nodes[k]?.parent ?? -1;
    if (parent >= 0) part[k] = part[parent] ?? -1;
  }
  return part;
}
