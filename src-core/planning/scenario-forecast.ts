import { remainingProbability, type CalibratedNetwork } from '../inference/queries/calibrated-network.ts';
import { goingAlone, type CauseRemoved } from '../inference/queries/cause-removed.ts';
import type { RepairOracle } from '../inference/queries/repair-oracle.ts';
import type { GraphModel, GraphObservation } from '../inference/network/graph-model.ts';
import type { Scenario } from './repair-problem.ts';

/** Chances that each cause and mechanism is at work now, in one scenario. */
type Marginals = Pick<CauseRemoved, 'causes' | 'mechanisms'>;

/**
 * Forecasts for the open observations of a case. An observation's parents are taken as independent within a scenario,
 * which costs next to nothing once the scenario's marginals are known.
 */
export class ScenarioForecast {
  private readonly network: CalibratedNetwork;
  private readonly model: GraphModel;
  private readonly scenarios: readonly Scenario[];
  private readonly unresolved: number;
  private readonly marginals: readonly Marginals[];
  /** Scenarios, and one for when none holds. */
  private readonly rows: number;
  /** chances[parent * rows + row], causes first and then mechanisms. */
  private readonly chances: Float64Array;
  /** Working space by number of levels. */
  private readonly upTo: (Float64Array | undefined)[] = [];

  constructor(
    network: CalibratedNetwork,
    oracle: RepairOracle,
    scenarios: readonly Scenario[],
    unresolved: number,
  ) {
    this.network = network;
    this.model = network.model;
    this.scenarios = scenarios;
    this.unresolved = unresolved;
    this.marginals = scenarios.map(({ causes }) => joined(causes.map((cause) => oracle.without(cause))));
    this.rows = scenarios.length + 1;
    this.chances = new Float64Array((this.model.causes.length + this.model.mechanisms.length) * this.rows);
    [...this.marginals, this.restMarginals()].forEach(({ causes, mechanisms }, row) => {
      const lay = (chance: number, parent: number) => (this.chances[parent * this.rows + row] = chance);
      causes.forEach(lay);
      mechanisms.forEach((chance, m) => lay(chance, causes.length + m));
    });
  }

  /** into[row * levels + level], one row a scenario and a last one for when none holds. */
  into(observation: number, into: Float64Array): void {
    const gate = this.model.observations[observation];
    if (!gate) return;
    const { rows, chances } = this;
    const { parents, drops } = flatGateOf(gate);
    const rungs = gate.leak.length - 1;
    // upTo[level * rows + row]: chance of at most this level.
    const upTo = (this.upTo[rungs] ??= new Float64Array(rungs * rows));
    let leakUpTo = 0;
    for (let level = 0; level < rungs; level++) {
      leakUpTo += gate.leak[level] as number;
      upTo.fill(leakUpTo, level * rows, (level + 1) * rows);
    }
    for (let k = 0; k < parents.length; k++) {
      const parent = parents[k] as number;
      const from = (parent < 0 ? this.model.causes.length + ~parent : parent) * rows;
      for (let level = 0; level < rungs; level++) {
        const drop = drops[k * rungs + level] as number;
        if (drop === 0) continue;
        const at = level * rows;
        for (let row = 0; row < rows; row++) {
          upTo[at + row] = (upTo[at + row] as number) * (1 - (chances[from + row] as number) * drop);
        }
      }
    }
    for (let row = 0; row < rows; row++) {
      let below = 0;
      for (let level = 0; level < rungs; level++) {
        const reached = Math.max(below, upTo[level * rows + row] as number);
        into[row * (rungs + 1) + level] = reached - below;
        below = reached;
      }
      into[row * (rungs + 1) + rungs] = 1 - below;
    }
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

/** A gate laid out for many forecasts: parents in a row, and what each takes away of "at most this level". */
interface FlatGate {
  /** Index of a cause, or `~index` of a mechanism. */
  readonly parents: Int32Array;
  /** drops[parent * (levels - 1) + level]: chance that the parent raises more than this level. */
  readonly drops: Float64Array;
}

const flatGates = new WeakMap<GraphObservation, FlatGate>();

function flatGateOf(observation: GraphObservation): FlatGate {
  const known = flatGates.get(observation);
  if (known) return known;
  const { links, leak } = observation;
  const rungs = leak.length - 1;
  const drops = new Float64Array(links.length * rungs);
  links.forEach(({ levels }, k) => {
    let upTo = 0;
    for (let level = 0; level < rungs; level++) {
      upTo += levels[level] as number;
      drops[k * rungs + level] = 1 - Math.min(1, upTo);
    }
  });
  const parents = Int32Array.from(links, ({ from }) => (from.kind === 'cause' ? from.index : ~from.index));
  const made = { parents, drops };
  flatGates.set(observation, made);
  return made;
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
