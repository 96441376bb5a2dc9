import { takeAsUsable } from './validate.ts';
import type { GraphLink, GraphMechanism, GraphModel, GraphObservation } from './graph-model.ts';

/**
 * A model in which "this cause accounts for the complaint" is a variable of its own.
 *
 * Every cause i of the base model becomes two hypotheses: A_i, it is there and has an active path to at least one
 * observation of the complaint (index i, "at work"), and B_i, it is there and has none (index n + i, "in the background").
 *
 *   a(i, c)  chance that i alone raises complaint c: what its table says, or
 *            1 - (1 - direct) * product over mechanisms m of (1 - q(i, m) r(m, c))
 *   e(i)     = 1 - product over complaints c of (1 - a(i, c)), chance that i is at work, given i
 *   P(A_i)   = prior(i) e(i)
 *   P(B_i)   = prior(i) (1 - e(i)) / (1 - prior(i) e(i)), or the share of prior(i) that is asked for
 *   P(c raised by A_i) = a(i, c) / e(i),    by B_i: 0
 *   P(m driven by A_i) = 1 - (1 - q) P(at work | m not driven by i) / e(i),  by B_i: what is left of q
 *
 * Observations that speak of what accounts for the complaint (`accountLevels`) hang from the A_i alone; all others from
 * A_i and B_i as they hung from i. What nobody knows raises each complaint by itself: U_c, with the complaint's own leak and
 * the leaks of mechanisms behind it (`unknownCause` stands for the first complaint's, further ones follow at the end). Given
 * the hypotheses the model is a layered noisy-MAX network like the base model, so everything exact about that stays exact.
 *
 * Beside the base model two things are simplified: A_i and B_i are independent roots instead of excluding each other (both
 * together have about prior squared), and a mechanism that two causes share raises the complaint for each by itself.
 */
export interface ComplaintModel {
  readonly model: GraphModel;
  /** Number of causes of the base model: hypotheses below it are "at work", above "in the background". */
  readonly causeCount: number;
  /** e(i): chance that a cause is at work, if it is there. */
  readonly atWork: Float64Array;
  /** Hypotheses "something that the base model does not know", one for each complaint; empty without an unknown cause. */
  readonly unknowns: readonly number[];
  /** Priors of all hypotheses from those of the base model's causes under the conditions of a case. */
  priorsFrom(priors: readonly number[]): number[];
}

export interface ComplaintModelOptions {
  /**
   * How often (0-1) a cause is there without accounting for what a case is about, as a share of its prior; left out, it is
   * what the base model says.
   */
  readonly backgroundShare?: number;
  /**
   * Nothing is impossible: what all causes together raise of a complaint at the least, as a share of what raises it, spread by
   * their priors, so that what is found directly can lift any of them. 0 when left out.
   */
  readonly leastShare?: number;
}

/**
 * Builds the model for a complaint.
 *
 * Requires: `complaint` names observations of `base` by index, each once; `unknownCause` is the index of the cause that
 * takes over the leaks, or -1 to leave them as leaks.
 */
export function complaintModel(
  base: GraphModel,
  complaint: readonly number[],
  unknownCause: number,
  { backgroundShare, leastShare = 0 }: ComplaintModelOptions = {},
): ComplaintModel {
  const count = base.causes.length;
  const drives = drivesByCause(base);
  const bare = base.causes.map((_, cause) => reachOf(base, drives, complaint, cause));
  const reach = leastShare > 0 ? withLeast(base, complaint, bare, leastShare) : bare;
  const atWork = Float64Array.from(reach, ({ any }) => any);
  const unknown = unknownCause < 0 ? null : unknownShares(base, complaint, unknownCause, reach[unknownCause]);
  const isUnknown = (cause: number) => unknown !== null && cause === unknownCause;
  if (unknown) atWork[unknownCause] = 0;
  const isCandidate = (cause: number) => (atWork[cause] ?? 0) > 0;
  const background = (prior: number, cause: number) => {
    if (isUnknown(cause)) return 0;
    return backgroundShare === undefined ? inBackground(prior, atWork[cause] ?? 0) : backgroundShare * prior;
  };
  const unknowns = unknown ? complaint.map((_, c) => (c === 0 ? unknownCause : 2 * count + c - 1)) : [];

  const complaintLinks = (c: number): GraphLink[] =>
    base.causes.flatMap((_, cause): GraphLink[] => {
      if (!isCandidate(cause)) return [];
      const from = { kind: 'cause', index: cause } as const;
      const levels = reach[cause]?.levels[c] ?? [1];
      return levels.slice(1).some((p) => p > 0) ? [{ from, levels: given(levels, atWork[cause] ?? 1) }] : [];
    });
  const mechanisms = base.mechanisms.map((mechanism, m): GraphMechanism => ({
    ...mechanism,
    links: mechanism.links.flatMap(({ cause, probability }) => {
      const share = reach[cause];
      const e = atWork[cause] ?? 0;
      if (!share || e === 0) return [{ cause: count + cause, probability }];
      const driven = drivenAtWork(probability, e, share.without[m] ?? 0);
      const left = backgroundShare === undefined ? backgroundOf(probability, e, driven) : probability;
      return [
        { cause, probability: driven },
        { cause: count + cause, probability: left },
      ];
    }),
  }));
  const others = observationsApart(base, isCandidate, isUnknown, unknowns);
  const observations = base.observations.map((observation, index): GraphObservation => {
    const c = complaint.indexOf(index);
    if (c >= 0) {
      if (!unknown) return { ...observation, links: complaintLinks(c) };
      const leak = observation.leak.map((_, level) => (level === 0 ? 1 : 0));
      const from = { kind: 'cause', index: unknowns[c] ?? -1 } as const;
      return {
        ...observation,
        leak,
        links: [...complaintLinks(c), { from, levels: unknown.levels[c] ?? [1] }],
      };
    }
    return others[index] ?? observation;
  });
  const priorsFrom = (priors: readonly number[]) => [
    ...priors.map((prior, i) => (isUnknown(i) ? (unknown?.priors[0] ?? 0) : prior * (atWork[i] ?? 0))),
    ...priors.map(background),
    ...(unknown?.priors.slice(1) ?? []),
  ];
  const basePriors = priorsFrom(base.causes.map(({ prior }) => prior));
  const unknownId = base.causes[unknownCause]?.id ?? '';
  const ids = [
    ...base.causes.map(({ id }) => id),
    ...base.causes.map(({ id }) => id),
    ...unknowns.slice(1).map(() => unknownId),
  ];
  const model: GraphModel = {
    causes: ids.map((id, hypothesis) => ({ id, prior: basePriors[hypothesis] ?? 0 })),
    rankedCauses: count,
    mechanisms,
    observations,
  };
  takeAsUsable(model, base);
  return { model, causeCount: count, atWork, unknowns, priorsFrom };
}

/** With every cause a candidate the observations hang as they do in any other case: by base model and hypotheses of what nobody knows. */
const apartFromAll = new WeakMap<GraphModel, Map<string, readonly GraphObservation[]>>();

/** Observations that nobody complains of, as they hang from the hypotheses. */
function observationsApart(
  base: GraphModel,
  isCandidate: (cause: number) => boolean,
  isUnknown: (cause: number) => boolean,
  unknowns: readonly number[],
): readonly GraphObservation[] {
  const build = () =>
    base.observations.map((observation) =>
      observationApart(observation, base, isCandidate, isUnknown, unknowns),
    );
  if (!base.causes.every((_, cause) => isUnknown(cause) || isCandidate(cause))) return build();
  const known = apartFromAll.get(base) ?? new Map<string, readonly GraphObservation[]>();
  apartFromAll.set(base, known);
  const key = unknowns.join(' ');
  const built = known.get(key) ?? build();
  known.set(key, built);
  return built;
}

function observationApart(
  observation: GraphObservation,
  base: GraphModel,
  isCandidate: (cause: number) => boolean,
  isUnknown: (cause: number) => boolean,
  unknowns: readonly number[],
): GraphObservation {
  const account = observation.accountLevels;
  if (account) {
    const links = base.causes.flatMap((_, cause): GraphLink[] => {
      const levels = account[cause];
      if (!levels) return [];
      const hypotheses = isUnknown(cause) ? unknowns : isCandidate(cause) ? [cause] : [];
      return hypotheses.map((hypothesis) => ({ from: { kind: 'cause', index: hypothesis }, levels }));
    });
    return { ...observation, links };
  }
  const count = base.causes.length;
  const links = observation.links.flatMap((link): GraphLink[] => {
    if (link.from.kind === 'mechanism') return [link];
    const background: GraphLink = {
      from: { kind: 'cause', index: count + link.from.index },
      levels: link.levels,
    };
    return isCandidate(link.from.index) ? [link, background] : [background];
  });
  return { ...observation, links };
}

/**
 * The same hypotheses where nothing was complained of: every cause counts as at work, so that what speaks of accounting
 * speaks of presence.
 */
export function modelWithoutComplaint(base: GraphModel): ComplaintModel {
  const count = base.causes.length;
  const observations = base.observations.map((observation): GraphObservation => {
    const account = observation.accountLevels;
    if (!account) return observation;
    const links = account.map((levels, index): GraphLink => ({ from: { kind: 'cause', index }, levels }));
    return { ...observation, links };
  });
  return {
    model: { ...base, observations },
    causeCount: count,
    atWork: new Float64Array(count).fill(1),
    unknowns: [],
    priorsFrom: (priors) => [...priors],
  };
}

interface Reach {
  /** Distribution over the levels of each complaint observation from this cause alone. */
  readonly levels: readonly (readonly number[])[];
  /** e(i). */
  readonly any: number;
  /** Chance to be at work when mechanism m is not driven by this cause, by m; only mechanisms that it drives. */
  readonly without: Readonly<Record<number, number>>;
}

type Drives = readonly (readonly { readonly mechanism: number; readonly probability: number }[])[];

function drivesByCause(base: GraphModel): Drives {
  const drives: { mechanism: number; probability: number }[][] = base.causes.map(() => []);
  base.mechanisms.forEach((mechanism, m) => {
    for (const { cause, probability } of mechanism.links) drives[cause]?.push({ mechanism: m, probability });
  });
  return drives;
}

function reachOf(base: GraphModel, drives: Drives, complaint: readonly number[], cause: number): Reach {
  const paths = drives[cause] ?? [];
  const atMostOf = (leftOut: number) =>
    complaint.map((index) => {
      const observation = base.observations[index];
      const atMost = (observation?.leak ?? [1]).map(() => 1);
      for (const { from, levels } of observation?.links ?? []) {
        const path =
          from.kind === 'mechanism' ? paths.find(({ mechanism }) => mechanism === from.index) : undefined;
        const probability =
          from.kind === 'mechanism' ? (path?.probability ?? 0) : from.index === cause ? 1 : 0;
        if (probability === 0 || (from.kind === 'mechanism' && from.index === leftOut)) continue;
        let sum = 0;
        levels.forEach((p, level) => {
          sum += p;
          atMost[level] = (atMost[level] ?? 1) * (1 - probability * (1 - Math.min(1, sum)));
        });
      }
      return atMost;
    });
  const silent = (all: readonly (readonly number[])[]) =>
    all.reduce((product, atMost) => product * (atMost[0] ?? 1), 1);
  const byLinks = atMostOf(-1);
  const levels = byLinks.map((atMost, c) => {
    const observation = base.observations[complaint[c] ?? -1];
    const said = observation?.reach
      ? (observation.reach[cause] ?? [1])
      : atMost.map((value, level) => value - (level === 0 ? 0 : (atMost[level - 1] ?? 0)));
    return said.length === atMost.length ? said : atMost.map((_, level) => (level === 0 ? 1 : 0));
  });
  const any = 1 - levels.reduce((product, each) => product * (each[0] ?? 1), 1);
  const anyByLinks = 1 - silent(byLinks);
  // A table says how often, not by which way: the ways keep their shares.
  const scale = anyByLinks > 0 ? any / anyByLinks : 0;
  const withoutOf = (mechanism: number) => (anyByLinks > 0 ? scale * (1 - silent(atMostOf(mechanism))) : any);
  return {
    levels,
    any,
    without: Object.fromEntries(paths.map(({ mechanism }) => [mechanism, withoutOf(mechanism)])),
  };
}

/** Levels given that the cause is at work. */
function given(levels: readonly number[], atWork: number): number[] {
  const raised = levels.map((p, level) => (level === 0 ? 0 : Math.max(0, p) / atWork));
  const total = raised.reduce((sum, p) => sum + p, 0);
  // Rounding may carry the sum a hair above 1.
  const scale = Math.max(1, total);
  return raised.map((p, level) => (level === 0 ? Math.max(0, 1 - total) : p / scale));
}

/** Every cause raises each complaint at least by the same chance, such that together they make up `share` of it. */
function withLeast(
  base: GraphModel,
  complaint: readonly number[],
  bare: readonly Reach[],
  share: number,
): readonly Reach[] {
  const priorSum = base.causes.reduce((sum, { prior }) => sum + prior, 0);
  const least = complaint.map((_, c) => {
    const raised = bare.reduce(
      (sum, { levels }, i) => sum + (base.causes[i]?.prior ?? 0) * (1 - (levels[c]?.[0] ?? 1)),
      0,
    );
    return (share * raised) / priorSum;
  });
  return bare.map((reach) => {
    const levels = reach.levels.map((each, c) => {
      const lowest = least[c] ?? 0;
      if (1 - (each[0] ?? 1) >= lowest) return each;
      return each.map((_, level) => (level === 0 ? 1 - lowest : level === 1 ? lowest : 0));
    });
    return { ...reach, levels, any: 1 - levels.reduce((product, each) => product * (each[0] ?? 1), 1) };
  });
}

function drivenAtWork(probability: number, atWork: number, withoutIt: number): number {
  return within(1 - ((1 - probability) * withoutIt) / atWork, probability, 1);
}

/** What is left of the chance to drive a mechanism when the cause is there and not at work. */
function backgroundOf(probability: number, atWork: number, driven: number): number {
  if (atWork >= 1) return probability;
  return within((probability - atWork * driven) / (1 - atWork), 0, probability);
}

function inBackground(prior: number, atWork: number): number {
  const present = prior * atWork;
  return present >= 1 ? 0 : (prior - present) / (1 - present);
}

function within(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

/**
 * What nobody knows raises each complaint by itself: through the unknown cause, the complaint's leak, or a mechanism that
 * runs with no cause behind it. Where a table says how often each cause brings the complaint about, its leak is all of that.
 * By complaint: the prior of the hypothesis, and what it raises when it holds.
 */
function unknownShares(
  base: GraphModel,
  complaint: readonly number[],
  unknownCause: number,
  reach: Reach | undefined,
): { readonly priors: readonly number[]; readonly levels: readonly (readonly number[])[] } {
  const prior = base.causes[unknownCause]?.prior ?? 0;
  const raised = complaint.map((index, c) => {
    const observation = base.observations[index];
    const own = reach?.levels[c] ?? [1];
    return (observation?.leak ?? [1]).map((leak, level) => {
      if (level === 0) return 0;
      const running = (observation?.reach ? [] : (observation?.links ?? [])).reduce(
        (sum, { from, levels }) =>
          from.kind === 'mechanism'
            ? sum + (base.mechanisms[from.index]?.leak ?? 0) * (levels[level] ?? 0)
            : sum,
        0,
      );
      return leak + running + prior * (own[level] ?? 0);
    });
  });
  const priors = raised.map((levels) =>
    Math.min(
      0.95,
      levels.reduce((sum, p) => sum + p, 0),
    ),
  );
  return { priors, levels: raised.map((levels, c) => given(levels, Math.max(priors[c] ?? 0, 1e-12))) };
}
