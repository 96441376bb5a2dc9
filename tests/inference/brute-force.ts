import type { GraphEvidence, GraphModel } from '../../src-core/inference/network/graph-model.ts';

/** Joint probabilities by enumeration of every state of causes and mechanisms; for small networks only. */
export interface BruteForce {
  readonly evidence: number;
  readonly causes: readonly number[];
  readonly mechanisms: readonly number[];
  /** levels[observation][level], given the evidence; for an observation with evidence too. */
  readonly levels: readonly (readonly number[])[];
  /** Probability of each set of causes (bit mask) given the evidence. */
  readonly sets: ReadonlyMap<number, number>;
}

export function bruteForce(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
): BruteForce {
  const causeCount = model.causes.length;
  const mechanismCount = model.mechanisms.length;
  let total = 0;
  const causes = new Array<number>(causeCount).fill(0);
  const mechanisms = new Array<number>(mechanismCount).fill(0);
  const levels = model.observations.map((observation) => observation.leak.map(() => 0));
  const sets = new Map<number, number>();
  for (let c = 0; c < 2 ** causeCount; c++) {
    const isPresent = (cause: number) => ((c >> cause) & 1) === 1;
    let causeWeight = 1;
    for (let k = 0; k < causeCount; k++)
      causeWeight *= isPresent(k) ? (priors[k] ?? 0) : 1 - (priors[k] ?? 0);
    for (let m = 0; m < 2 ** mechanismCount; m++) {
      let weight = causeWeight;
      model.mechanisms.forEach((mechanism, k) => {
        let off = 1 - mechanism.leak;
        for (const link of mechanism.links) if (isPresent(link.cause)) off *= 1 - link.probability;
        weight *= ((m >> k) & 1) === 1 ? 1 - off : off;
      });
      const isGoing = (mechanism: number) => ((m >> mechanism) & 1) === 1;
      const distributions = model.observations.map((observation) => {
        const present = observation.links.filter((link) =>
          link.from.kind === 'cause' ? isPresent(link.from.index) : isGoing(link.from.index),
        );
        const atMost = observation.leak.map((_, level) =>
          [observation.leak, ...present.map((link) => link.levels)].reduce(
            (product, each) => product * each.slice(0, level + 1).reduce((sum, p) => sum + p, 0),
            1,
          ),
        );
        return atMost.map((value, level) => value - (atMost[level - 1] ?? 0));
      });
      for (const finding of evidence) {
        const each = distributions[finding.observation] ?? [];
        weight *=
          finding.kind === 'level'
            ? (each[finding.level] ?? 0)
            : each.reduce((sum, p, level) => sum + p * (finding.likelihood[level] ?? 0), 0);
      }
      if (weight === 0) continue;
      total += weight;
      sets.set(c, (sets.get(c) ?? 0) + weight);
      for (let k = 0; k < causeCount; k++) if (isPresent(k)) causes[k] = (causes[k] ?? 0) + weight;
      for (let k = 0; k < mechanismCount; k++) if (isGoing(k)) mechanisms[k] = (mechanisms[k] ?? 0) + weight;
      distributions.forEach((each, o) =>
        each.forEach((p, level) => {
          const row = levels[o];
          if (row) row[level] = (row[level] ?? 0) + weight * p;
        }),
      );
    }
  }
  for (const [key, value] of sets) sets.set(key, value / total);
  return {
    evidence: total,
    causes: causes.map((value) => value / total),
    mechanisms: mechanisms.map((value) => value / total),
    levels: levels.map((row) => row.map((value) => value / total)),
    sets,
  };
}
