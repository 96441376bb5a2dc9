import { findingGate } from './finding-gate.ts';
import type { GraphEvidence, GraphModel } from './graph-model.ts';
import {
  maximumJoin,
  type Accumulator,
  type FindingPlace,
  type MaxLink,
  type MaxNetwork,
  type Source,
  type SourceFactor,
} from './max-network.ts';
import { likelihoodOf, PLAIN_WORLD, type WorldView } from './worlds.ts';

/**
 * Writes a model with evidence as a max network.
 *
 * Absent findings become weights on their parents and cost nothing afterwards (Heckerman, A tractable inference
 * algorithm for diagnosing multiple diseases, UAI-5 (1989)). Mechanisms without evidence below are left out:
 * summed over, they are 1 (barren nodes: Shachter, Oper. Res. 34 (1986)). `keepsExcluded` as for `findingGate`.
 */
export function encode(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  worlds: WorldView = PLAIN_WORLD,
  keepsExcluded = false,
): MaxNetwork {
  const classes = worlds.classes;
  const auxiliaries: Accumulator[] = [];
  const links: MaxLink[] = [];
  const sources: Source[] = priors.map((prior, index) => {
    const weights = new Float64Array(classes + 1);
    const share = worlds.classProbabilities(index);
    weights[0] = 1 - prior;
    for (let k = 1; k <= classes; k++) weights[k] = prior * (share[k - 1] ?? 0);
    return { kind: 'cause', index, weights, factors: new Float64Array(classes + 1).fill(1), settledBy: -1 };
  });
  const mechanismSource = new Map<number, number>();
  const sourceOfMechanism = (index: number): number => {
    const known = mechanismSource.get(index);
    if (known !== undefined) return known;
    const source = sources.length;
    mechanismSource.set(index, source);
    sources.push({
      kind: 'mechanism',
      index,
      weights: new Float64Array(classes + 1).fill(1),
      factors: new Float64Array(classes + 1).fill(1),
      settledBy: auxiliaries.length,
    });
    auxiliaries.push(mechanismAccumulator(model.mechanisms[index]?.leak ?? 0, classes, source));
    return source;
  };

  let logConstant = 0;
  const findings: FindingPlace[] = [];
  for (const finding of evidence) {
    const observation = model.observations[finding.observation];
    if (!observation) continue;
    const likelihood = likelihoodOf(finding, observation.leak.length);
    const demand = worlds.eventOf(finding.observation);
    const gate = findingGate(likelihood, demand, worlds.worldOf(finding.observation), keepsExcluded);
    const start = gate.raised(observation.leak, classes);
    const isScalar = gate.states === 1;
    // The same likelihood for every level says nothing about any parent.
    const saysNothing = isScalar && !demand && likelihood.every((value) => value === likelihood[0]);
    const constant = isScalar ? (gate.closes[0] ?? 0) * (saysNothing ? 1 : (start[0] ?? 0)) : 1;
    logConstant += Math.log(constant);
    const auxiliary = auxiliaries.length;
    const factors: SourceFactor[] = [];
    findings.push({ auxiliary: isScalar ? -1 : auxiliary, constant, factors });
    if (saysNothing) continue;
    if (!isScalar) {
      auxiliaries.push({ states: gate.states, start, join: gate.join, closes: gate.closes, settles: -1 });
    }
    for (const link of observation.links) {
      const raised = Array.from({ length: classes }, (_, k) => gate.raised(link.levels, k + 1));
      if (raised.every((weights) => weights[0] === 1)) continue;
      const source = link.from.kind === 'cause' ? link.from.index : sourceOfMechanism(link.from.index);
      if (
        isScalar ||
        raised.every((weights) => weights.every((value, state) => state === 0 || value === 0))
      ) {
        raised.forEach(([factor = 0], k) => {
          multiplyState(sources[source], k + 1, factor);
          factors.push({ source, state: k + 1, factor });
        });
        continue;
      }
      links.push({ source, auxiliary, rows: withAbsentRow(raised, gate.states) });
    }
  }
  for (const [index, source] of mechanismSource) {
    const auxiliary = sources[source]?.settledBy ?? -1;
    for (const link of model.mechanisms[index]?.links ?? []) {
      if (link.probability === 0) continue;
      const raised = Array.from({ length: classes }, (_, k) => drivenTo(link.probability, k + 1, classes));
      links.push({ source: link.cause, auxiliary, rows: withAbsentRow(raised, classes + 1) });
    }
  }
  return { sources, auxiliaries, links, logConstant, findings };
}

function multiplyState(source: Source | undefined, state: number, factor: number): void {
  if (!source) return;
  source.weights[state] = (source.weights[state] ?? 0) * factor;
  source.factors[state] = (source.factors[state] ?? 0) * factor;
}

function mechanismAccumulator(leak: number, classes: number, source: number): Accumulator {
  return {
    states: classes + 1,
    start: drivenTo(leak, classes, classes),
    join: maximumJoin(classes + 1),
    closes: null,
    settles: source,
  };
}

/** A two-valued activation of the given class as weights over 0 ... classes. */
function drivenTo(probability: number, aliveClass: number, classes: number): Float64Array {
  const weights = new Float64Array(classes + 1);
  weights[0] = 1 - probability;
  weights[aliveClass] = probability;
  return weights;
}

function withAbsentRow(raised: readonly Float64Array[], states: number): Float64Array {
  const rows = new Float64Array((raised.length + 1) * states);
  rows[0] = 1;
  raised.forEach((weights, k) => rows.set(weights, (k + 1) * states));
  return rows;
}
