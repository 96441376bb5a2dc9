import type { GraphEvidence, GraphModel } from './graph-model.ts';
import { requireIndex, requireProbability } from './validate.ts';
import { likelihoodOf, type ComplaintEvent, type WorldView } from './worlds.ts';

/** One cause that a remedy may take away, with the probability (0–1) that it does if the cause is there. */
export interface Removal {
  readonly cause: number;
  readonly probability: number;
}

/** What the operator said of the complaint after a remedy. */
export type RemedyOutcome = 'cured' | 'better' | 'partly' | 'came-back' | 'not-cured' | 'worse';

export interface TriedRemedy {
  readonly removal: readonly Removal[];
  readonly outcome: RemedyOutcome;
}

/** Remedies tried so far in a case, in order. Each acts on what the earlier ones left. */
export interface CaseHistory {
  /** Observations that make up the complaint; each must be in evidence above level 0. */
  readonly complaint: readonly number[];
  readonly tries: readonly TriedRemedy[];
  /** Observations made after some tries: how many tries came first. Others were made before the first. */
  readonly seenAfterTries?: ReadonlyMap<number, number>;
}

/**
 * Likelihood of each outcome when the complaint is in truth gone, and when it is still there. "Better" is our own
 * estimate: two to one for gone, 3 decibans, about three times the smallest weight of evidence that people notice
 * (Good, Probability and the Weighing of Evidence (1950), chapter 6).
 */
export const OUTCOME_LIKELIHOOD: Readonly<
  Record<RemedyOutcome, { readonly gone: number; readonly there: number }>
> = {
  cured: { gone: 1, there: 0 },
  better: { gone: 2 / 3, there: 1 / 3 },
  // Gone for one part, place or spool: about even. Gone and back: what it acted on was involved, and did not stay cured.
  partly: { gone: 1 / 2, there: 1 / 2 },
  'came-back': { gone: 0.4, there: 0.6 },
  'not-cured': { gone: 0, there: 1 },
  worse: { gone: 0, there: 1 },
};

/** One way in which the history can have come about: a set of demands on a single max network. */
export interface HistoryBranch {
  readonly likelihood: number;
  readonly view: WorldView;
  /** Worlds kept apart, as numbers of tries; class k is alive up to `cuts[k - 1]` tries. */
  readonly cuts: readonly number[];
  /** Tries after which the complaint was first gone; null when it is still there. */
  readonly goneAfter: number | null;
}

/**
 * Splits a history by the try after which the complaint was first gone, each part again by the first complaint
 * observation that was still there just before. The parts exclude each other, so their probabilities add up
 * without a subtraction.
 */
export function historyBranches(history: CaseHistory): readonly HistoryBranch[] {
  const { tries, complaint } = history;
  if (complaint.length === 0 || tries.length === 0) return [branch(history, 1, new Map(), null, [])];
  const branches: HistoryBranch[] = [];
  for (let t = 1; t <= tries.length; t++) {
    const likelihood = outcomeLikelihood(tries, t);
    if (likelihood === 0) continue;
    // Before the first try every observation of the complaint is there by evidence.
    if (t === 1) {
      branches.push(branch(history, likelihood, demands(complaint, -1, 1, 1), 1, [1]));
      continue;
    }
    complaint.forEach((_, first) => {
      branches.push(branch(history, likelihood, demands(complaint, first, t - 1, t), t, [t - 1, t]));
    });
  }
  const likelihood = outcomeLikelihood(tries, tries.length + 1);
  if (likelihood > 0) {
    complaint.forEach((_, first) => {
      branches.push(
        branch(history, likelihood, demands(complaint, first, tries.length, null), null, [tries.length]),
      );
    });
  }
  return branches;
}

/** Throws unless the history fits model and evidence. */
export function requireHistory(
  model: GraphModel,
  evidence: readonly GraphEvidence[],
  history: CaseHistory,
): void {
  for (const observation of history.complaint) {
    requireIndex(observation, model.observations.length, 'complaint');
    const finding = evidence.find((entry) => entry.observation === observation);
    const levels = model.observations[observation]?.leak.length ?? 0;
    if (!finding || likelihoodOf(finding, levels)[0] !== 0) {
      const id = model.observations[observation]?.id;
      throw new RangeError(
        `complaint observation "${id}" must be in evidence above level 0, got ${JSON.stringify(finding)}`,
      );
    }
    if (history.seenAfterTries?.get(observation)) {
      throw new RangeError(
        `complaint observation "${model.observations[observation]?.id}" must be seen before any try`,
      );
    }
  }
  if (history.complaint.length === 0 && history.tries.length > 0) {
    throw new RangeError('tried remedies need a complaint to judge them by, got none');
  }
  history.tries.forEach((tried) => requireRemoval(model, tried.removal));
  for (const [observation, tries] of history.seenAfterTries ?? []) {
    requireIndex(observation, model.observations.length, 'seenAfterTries');
    requireIndex(
      tries,
      history.tries.length + 1,
      `tries before observation "${model.observations[observation]?.id}"`,
    );
  }
}

/** Throws unless each cause is named once with a probability. */
export function requireRemoval(model: GraphModel, removal: readonly Removal[]): void {
  removal.forEach(({ cause, probability }, index) => {
    requireIndex(cause, model.causes.length, 'removal.cause');
    requireProbability(probability, `removal of cause "${model.causes[cause]?.id}"`);
    if (removal.findIndex((entry) => entry.cause === cause) !== index) {
      throw new RangeError(`removal names cause "${model.causes[cause]?.id}" twice`);
    }
  });
}

/** Probability that a cause present at first is still there after the tries numbered from + 1 ... to. */
export function survival(tries: readonly TriedRemedy[], cause: number, from: number, to: number): number {
  let left = 1;
  for (let t = from; t < to; t++) {
    left *= 1 - (tries[t]?.removal.find((entry) => entry.cause === cause)?.probability ?? 0);
  }
  return left;
}

function outcomeLikelihood(tries: readonly TriedRemedy[], firstGoneAfter: number): number {
  return tries.reduce((product, { outcome }, index) => {
    const { gone, there } = OUTCOME_LIKELIHOOD[outcome];
    return product * (index + 1 < firstGoneAfter ? there : gone);
  }, 1);
}

/** Demands in numbers of tries: observations before `first` gone at `before`, `first` held at `before`. */
function demands(
  complaint: readonly number[],
  first: number,
  before: number,
  gone: number | null,
): Map<number, ComplaintEvent> {
  return new Map(
    complaint.map((observation, k) => {
      if (k < first) return [observation, { goneAt: before, heldAt: null }];
      return [observation, { goneAt: gone, heldAt: k === first ? before : null }];
    }),
  );
}

function branch(
  history: CaseHistory,
  likelihood: number,
  events: ReadonlyMap<number, ComplaintEvent>,
  goneAfter: number | null,
  worlds: readonly number[],
): HistoryBranch {
  const seen = history.seenAfterTries ?? new Map<number, number>();
  // The world after all tries is always told apart: predictions and what is left are about that one.
  const cuts = [...new Set([0, ...worlds, ...seen.values(), history.tries.length])].sort((a, b) => a - b);
  const indexOf = (tries: number | null) => (tries === null ? null : cuts.indexOf(tries));
  const { tries } = history;
  const view: WorldView = {
    classes: cuts.length,
    classProbabilities: (cause) =>
      cuts.map((cut, k) => {
        const next = cuts[k + 1];
        const alive = survival(tries, cause, 0, cut);
        return next === undefined ? alive : alive * (1 - survival(tries, cause, cut, next));
      }),
    worldOf: (observation) => indexOf(seen.get(observation) ?? 0) ?? 0,
    eventOf: (observation) => {
      const event = events.get(observation);
      return event && { goneAt: indexOf(event.goneAt), heldAt: indexOf(event.heldAt) };
    },
  };
  return { likelihood, view, cuts, goneAfter };
}
