import fc from 'fast-check';
import type { GraphEvidence, GraphLink, GraphModel } from '../../src-core/inference/network/graph-model.ts';

export interface RandomCase {
  readonly model: GraphModel;
  readonly priors: readonly number[];
  readonly evidence: readonly GraphEvidence[];
}

export interface RandomSize {
  readonly causes: number;
  readonly mechanisms: number;
  readonly observations: number;
  /** Share of observations with evidence. */
  readonly evidenceShare?: number;
  readonly maxLevels?: number;
  readonly softEvidence?: boolean;
}

/** Small random networks with all kinds of evidence; a fixed generator draws from the seed, so cases replay. */
export function randomCases(size: RandomSize): fc.Arbitrary<RandomCase> {
  return fc.integer({ min: 1, max: 2 ** 31 - 2 }).map((seed) => randomCase(seed, size));
}

export function randomCase(seed: number, size: RandomSize): RandomCase {
  const random = generator(seed);
  const below = (count: number) => Math.floor(random() * count);
  const causeCount = 1 + below(size.causes);
  const mechanismCount = below(size.mechanisms + 1);
  const observationCount = 1 + below(size.observations);
  const distribution = (levels: number, isLeak: boolean) => {
    const raw = Array.from({ length: levels }, (_, level) => random() * (isLeak && level > 0 ? 0.1 : 1));
    // Some links never raise the top level, and some are certain to raise something.
    if (random() < 0.15) raw[levels - 1] = 0;
    if (!isLeak && random() < 0.1) raw[0] = 0;
    const sum = raw.reduce((total, value) => total + value, 0);
    return sum > 0 ? raw.map((value) => value / sum) : raw.map((_, level) => (level === 0 ? 1 : 0));
  };
  const mechanisms = Array.from({ length: mechanismCount }, (_, k) => ({
    id: `m${k}`,
    leak: random() < 0.3 ? 0 : random() * 0.1,
    links: pickSome(causeCount, random, 0.5).map((cause) => ({ cause, probability: random() })),
  }));
  const observations = Array.from({ length: observationCount }, (_, k) => {
    const levels = 2 + below((size.maxLevels ?? 4) - 1);
    const links: GraphLink[] = [
      ...pickSome(causeCount, random, 0.45).map((index) => ({ from: { kind: 'cause' as const, index } })),
      ...pickSome(mechanismCount, random, 0.45).map((index) => ({
        from: { kind: 'mechanism' as const, index },
      })),
    ].map((link) => ({ ...link, levels: distribution(levels, false) }));
    return { id: `o${k}`, leak: distribution(levels, true), links };
  });
  const evidence: GraphEvidence[] = [];
  observations.forEach((observation, index) => {
    if (random() > (size.evidenceShare ?? 0.7)) return;
    const levels = observation.leak.length;
    if ((size.softEvidence ?? true) && random() < 0.25) {
      evidence.push({
        observation: index,
        kind: 'likelihood',
        likelihood: Array.from({ length: levels }, () => (random() < 0.2 ? 0 : random() * 2)),
      });
    } else {
      evidence.push({ observation: index, kind: 'level', level: random() < 0.4 ? 0 : below(levels) });
    }
  });
  const priors = Array.from({ length: causeCount }, () =>
    random() < 0.1 ? random() * 1e-6 : random() * 0.4,
  );
  const causes = priors.map((prior, k) => ({ id: `c${k}`, prior }));
  return { model: { causes, mechanisms, observations }, priors, evidence };
}

/** Park & Miller's minimal standard generator (1988): small, fixed, good enough to vary test cases. */
export function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return (state - 1) / 2147483646;
  };
}

function pickSome(count: number, random: () => number, chance: number): number[] {
  return Array.from({ length: count }, (_, k) => k).filter(() => random() < chance);
}
