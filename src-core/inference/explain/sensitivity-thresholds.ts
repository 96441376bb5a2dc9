import type { InferenceOptions } from '../queries/calibrated-network.ts';
import type { GraphEvidence, GraphLink, GraphModel } from '../network/graph-model.ts';
import { infer } from '../queries/infer.ts';
import type { ExactPosterior } from '../queries/posterior.ts';

/** A number of the model that somebody estimated. */
export type ModelWeight =
  | { readonly kind: 'prior'; readonly cause: number }
  | { readonly kind: 'drive'; readonly mechanism: number; readonly cause: number }
  | { readonly kind: 'sign'; readonly observation: number; readonly from: GraphLink['from'] };

export interface SensitivityThreshold {
  readonly weight: ModelWeight;
  /** Its probability (0-1) in the model; of a sign, that the parent alone raises any level. */
  readonly probability: number;
  /** The nearest probability at which another cause comes level with the first. */
  readonly tipsAt: number;
  /** How far that is, in natural log-odds; negative downwards. */
  readonly logOddsMove: number;
  /** The cause that comes level with the first there. */
  readonly rival: number;
}

export type SensitivityThresholds =
  | {
      readonly kind: 'ok';
      readonly first: number;
      readonly second: number;
      /** Nearest first; weights that never tip the ranking, however far they move, are left out. */
      readonly points: readonly SensitivityThreshold[];
    }
  | { readonly kind: 'impossible-evidence' | 'too-wide' };

/** A crossing further away than this (natural log-odds, a factor of e^20) is rounding of one that is not there. */
const LARGEST_MOVE = 20;

/**
 * How far one weight of the two leading causes must move, all others standing, before another cause comes first:
 * one-way sensitivity analysis. P(evidence, cause) is linear in each prior and in each link's probability (Castillo,
 * Gutierrez & Hadi, IEEE Trans. SMC 27 (1997); Coupe & van der Gaag, Ann. Math. Artif. Intell. 36 (2002)), so a second
 * posterior for each weight gives the crossing of any two causes exactly. A link of several levels moves as a whole: the
 * shares of its levels above 0 stay.
 *
 * Weights looked at: the priors of the two, what drives the mechanisms from them, and the links that findings have from
 * them and from those mechanisms. One posterior each, some dozens; not for the answer path.
 */
export function sensitivityThresholds(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  options: InferenceOptions = {},
): SensitivityThresholds {
  const now = infer(model, priors, evidence, options);
  if (now.kind !== 'ok') return now;
  if (!now.exact) return { kind: 'too-wide' };
  const [first = -1, second = -1] = [...now.causes.keys()]
    .slice(0, model.rankedCauses)
    .sort((a, b) => (now.causes[b] ?? 0) - (now.causes[a] ?? 0));
  if (second < 0) return { kind: 'ok', first, second, points: [] };
  const points = weightsOf(model, evidence, [first, second]).flatMap((weight): SensitivityThreshold[] => {
    const probability = probabilityOf(model, priors, weight);
    const elsewhere = probability < 0.5 ? (1 + probability) / 2 : probability / 2;
    const moved = withWeight(model, priors, weight, elsewhere);
    const then = infer(moved.model, moved.priors, evidence, options);
    if (then.kind !== 'ok' || !then.exact) return [];
    const ranked = model.rankedCauses ?? model.causes.length;
    const nearest = nearestCrossing(now, then, first, probability, elsewhere, ranked);
    return nearest ? [{ weight, probability, ...nearest }] : [];
  });
  points.sort((a, b) => Math.abs(a.logOddsMove) - Math.abs(b.logOddsMove));
  return { kind: 'ok', first, second, points };
}

/** Where another cause's share of the evidence, linear in the weight, meets that of the first. */
function nearestCrossing(
  now: ExactPosterior,
  then: ExactPosterior,
  first: number,
  probability: number,
  elsewhere: number,
  ranked: number,
): Pick<SensitivityThreshold, 'tipsAt' | 'logOddsMove' | 'rival'> | null {
  const scale = Math.exp(then.logEvidence - now.logEvidence);
  let nearest: Pick<SensitivityThreshold, 'tipsAt' | 'logOddsMove' | 'rival'> | null = null;
  now.causes.forEach((value, rival) => {
    if (rival === first || rival >= ranked) return;
    const leadNow = (now.causes[first] ?? 0) - value;
    const leadThen = scale * ((then.causes[first] ?? 0) - (then.causes[rival] ?? 0));
    const tipsAt = probability + ((elsewhere - probability) * leadNow) / (leadNow - leadThen);
    if (!(tipsAt > 0 && tipsAt < 1)) return;
    const logOddsMove = logOdds(tipsAt) - logOdds(probability);
    if (!(Math.abs(logOddsMove) < LARGEST_MOVE)) return;
    if (!nearest || Math.abs(logOddsMove) < Math.abs(nearest.logOddsMove)) {
      nearest = { tipsAt, logOddsMove, rival };
    }
  });
  return nearest;
}

function weightsOf(
  model: GraphModel,
  evidence: readonly GraphEvidence[],
  causes: readonly number[],
): ModelWeight[] {
  const weights: ModelWeight[] = causes.map((cause) => ({ kind: 'prior', cause }));
  const mechanisms = new Set<number>();
  const seen = evidence.map(({ observation }) => model.observations[observation]);
  const hasFinding = (index: number) =>
    seen.some((one) => one?.links.some(({ from }) => from.kind === 'mechanism' && from.index === index));
  model.mechanisms.forEach(({ links }, mechanism) => {
    if (!hasFinding(mechanism)) return;
    for (const { cause } of links) {
      if (!causes.includes(cause)) continue;
      weights.push({ kind: 'drive', mechanism, cause });
      mechanisms.add(mechanism);
    }
  });
  for (const { observation } of evidence) {
    for (const { from } of model.observations[observation]?.links ?? []) {
      const isOurs = from.kind === 'cause' ? causes.includes(from.index) : mechanisms.has(from.index);
      if (isOurs) weights.push({ kind: 'sign', observation, from });
    }
  }
  return weights;
}

function probabilityOf(model: GraphModel, priors: readonly number[], weight: ModelWeight): number {
  switch (weight.kind) {
    case 'prior':
      return priors[weight.cause] ?? 0;
    case 'drive':
      return (
        model.mechanisms[weight.mechanism]?.links.find(({ cause }) => cause === weight.cause)?.probability ??
        0
      );
    case 'sign':
      return 1 - (linkOf(model, weight)?.levels[0] ?? 1);
  }
}

function linkOf(model: GraphModel, { observation, from }: Extract<ModelWeight, { kind: 'sign' }>) {
  return model.observations[observation]?.links.find((link) => isSameParent(link.from, from));
}

function isSameParent(a: GraphLink['from'], b: GraphLink['from']): boolean {
  return a.kind === b.kind && a.index === b.index;
}

/** The model and priors with one weight set to another probability. */
export function withWeight(
  model: GraphModel,
  priors: readonly number[],
  weight: ModelWeight,
  probability: number,
): { readonly model: GraphModel; readonly priors: readonly number[] } {
  switch (weight.kind) {
    case 'prior':
      return { model, priors: priors.map((prior, cause) => (cause === weight.cause ? probability : prior)) };
    case 'drive': {
      const mechanisms = model.mechanisms.map((mechanism, index) =>
        index === weight.mechanism
          ? {
              ...mechanism,
              links: mechanism.links.map((link) =>
                link.cause === weight.cause ? { ...link, probability } : link,
              ),
            }
          : mechanism,
      );
      return { model: { ...model, mechanisms }, priors };
    }
    case 'sign': {
      const observations = model.observations.map((observation, index) =>
        index === weight.observation
          ? {
              ...observation,
              links: observation.links.map((link) =>
                isSameParent(link.from, weight.from)
                  ? { ...link, levels: raisedWith(link.levels, probability) }
                  : link,
              ),
            }
          : observation,
      );
      return { model: { ...model, observations }, priors };
    }
  }
}

/** The same shares of the levels above 0; a link that raises none gets level 1. */
function raisedWith(levels: readonly number[], probability: number): number[] {
  const raised = levels.slice(1).reduce((sum, p) => sum + p, 0);
  return levels.map((p, level) => {
    if (level === 0) return 1 - probability;
    if (raised > 0) return (p / raised) * probability;
    return level === 1 ? probability : 0;
  });
}

function logOdds(p: number): number {
  return Math.log(p) - Math.log1p(-p);
}
