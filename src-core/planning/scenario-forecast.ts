import { remainingProbability, type CalibratedNetwork } from '../inference/queries/calibrated-network.ts';
import type { CureNetwork, RepairOracle } from '../inference/queries/repair-oracle.ts';
import type { GraphModel } from '../inference/network/graph-model.ts';
import {
  differentiate,
  evaluateAbove,
  partValue,
  stateProbability,
} from '../inference/circuit/run-circuit.ts';
import type { Scenario } from './repair-problem.ts';

/** Chances that each cause and mechanism is at work now, in one scenario. */
interface Marginals {
  readonly causes: Float64Array;
  readonly mechanisms: Float64Array;
}

/**
 * Forecasts for the open observations of a case. An observation's parents are taken as independent within a scenario,
 * which costs next to nothing once the scenario's marginals are known.
 */
export class ScenarioForecast {
  private readonly network: CalibratedNetwork;
  private readonly model: GraphModel;
  private readonly oracle: RepairOracle;
  private readonly scenarios: readonly Scenario[];
  private readonly unresolved: number;
  private readonly marginals: readonly Marginals[];
  private readonly unresolvedMarginals: Marginals;

  constructor(
    network: CalibratedNetwork,
    oracle: RepairOracle,
    scenarios: readonly Scenario[],
    unresolved: number,
  ) {
    this.network = network;
    this.model = network.model;
    this.oracle = oracle;
    this.scenarios = scenarios;
    this.unresolved = unresolved;
    const single = new Map<number, Marginals>();
    for (const cause of new Set(scenarios.flatMap((scenario) => scenario.causes))) {
      single.set(cause, this.marginalsWithout(cause));
    }
    this.restore();
    this.marginals = scenarios.map(({ causes }) =>
      joined(causes.map((cause) => single.get(cause)).filter((each) => each !== undefined)),
    );
    this.unresolvedMarginals = this.restMarginals();
  }

  /** into[row * levels + level], one row a scenario and a last one for when none holds. */
  into(observation: number, into: Float64Array): void {
    const gate = this.model.observations[observation];
    const count = gate?.leak.length ?? 0;
    this.marginals.forEach((marginals, s) => independentLevels(gate, marginals, into, s * count));
    independentLevels(gate, this.unresolvedMarginals, into, this.marginals.length * count);
  }

  /** Marginals when the complaint would be gone without this cause. */
  private marginalsWithout(cause: number): Marginals {
    const sums = {
      causes: new Float64Array(this.model.causes.length),
      mechanisms: new Float64Array(this.model.mechanisms.length),
    };
    let total = 0;
    for (const network of this.oracle.networks) {
      const { circuit, scale } = network;
      const weights = circuit.weights[cause];
      if (!weights) continue;
      const before = Float64Array.from(weights);
      this.oracle.setRemoval(network, cause, 1, weights);
      evaluateAbove(circuit, cause);
      const share = circuit.roots.reduce((product, _, part) => product * partValue(circuit, part), scale);
      if (share > 0) {
        differentiate(circuit);
        this.addMarginals(network, share, sums);
        total += share;
      }
      weights.set(before);
      evaluateAbove(circuit, cause);
    }
    if (total === 0) return sums;
    return { causes: sums.causes.map((p) => p / total), mechanisms: sums.mechanisms.map((p) => p / total) };
  }

  private addMarginals({ circuit, mechanismSource }: CureNetwork, share: number, sums: Marginals): void {
    const alive = (source: number) => {
      const states = circuit.weights[source]?.length ?? 0;
      return stateProbability(circuit, source, states - 1) + stateProbability(circuit, source, states - 2);
    };
    const causes = sums.causes.map((_, cause) => alive(cause));
    for (let c = 0; c < causes.length; c++) sums.causes[c] = (sums.causes[c] ?? 0) + share * (causes[c] ?? 0);
    this.model.mechanisms.forEach((mechanism, m) => {
      const source = mechanismSource.get(m);
      const going = source === undefined ? goingAlone(mechanism, causes) : alive(source);
      sums.mechanisms[m] = (sums.mechanisms[m] ?? 0) + share * going;
    });
  }

  /** Puts the circuits back to nothing removed. */
  private restore(): void {
    for (const { circuit } of this.oracle.networks) differentiate(circuit);
  }

  /** What the scenarios leave of the overall chances. */
  private restMarginals(): Marginals {
    const causes = Float64Array.from(this.model.causes, (_, cause) => {
      let left = remainingProbability(this.network, cause);
      this.scenarios.forEach(
        ({ probability }, s) => (left -= probability * (this.marginals[s]?.causes[cause] ?? 0)),
      );
      return clamp(left / Math.max(this.unresolved, 1e-9));
    });
    return {
      causes,
      mechanisms: Float64Array.from(this.model.mechanisms, (gate) => goingAlone(gate, causes)),
    };
  }
}

/** Levels with the parents taken as independent, written from `at` on. */
function independentLevels(
  gate: GraphModel['observations'][number] | undefined,
  { causes, mechanisms }: Marginals,
  into: Float64Array,
  at: number,
): void {
  const count = gate?.leak.length ?? 0;
  let leakUpTo = 0;
  for (let level = 0; level < count; level++) into[at + level] = leakUpTo += gate?.leak[level] as number;
  for (const { from, levels } of gate?.links ?? []) {
    const chance = (from.kind === 'cause' ? causes : mechanisms)[from.index] as number;
    if (chance === 0) continue;
    let upTo = 0;
    for (let level = 0; level < count; level++) {
      upTo += levels[level] as number;
      into[at + level] = (into[at + level] as number) * (1 - chance * (1 - Math.min(1, upTo)));
    }
  }
  let total = 0;
  for (let level = count - 1; level >= 0; level--) {
    const p = Math.max(0, (into[at + level] as number) - (level > 0 ? (into[at + level - 1] as number) : 0));
    into[at + level] = p;
    total += p;
  }
  for (let level = 0; level < count; level++) into[at + level] = (into[at + level] as number) / total;
}

function goingAlone(gate: GraphModel['mechanisms'][number], causes: Float64Array): number {
  let off = 1 - gate.leak;
  for (const { cause, probability } of gate.links) off *= 1 - probability * (causes[cause] as number);
  return 1 - off;
}

/** A scenario of several causes: each is at work; for the rest the highest of their single chances. */
function joined(each: readonly Marginals[]): Marginals {
  const [first, ...others] = each;
  if (!first) throw new Error('a scenario names at least one cause');
  const highest = (a: Float64Array, b: Float64Array) => a.map((p, k) => Math.max(p, b[k] ?? 0));
  return others.reduce(
    (sum, next) => ({
      causes: highest(sum.causes, next.causes),
      mechanisms: highest(sum.mechanisms, next.mechanisms),
    }),
    first,
  );
}

function clamp(p: number): number {
  return Math.min(1, Math.max(0, p));
}
