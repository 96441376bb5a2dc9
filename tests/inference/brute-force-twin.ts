import { OUTCOME_LIKELIHOOD, type CaseHistory } from '../../src-core/inference/network/case-history.ts';
import type {
  GraphEvidence,
  GraphModel,
  GraphObservation,
} from '../../src-core/inference/network/graph-model.ts';

export interface TwinTruth {
  /** P(evidence and reports). */
  readonly evidence: number;
  /** P(complaint gone after the last try, evidence and reports). */
  readonly goneNow: number;
  /** P(cause present at first, evidence and reports), and after all tries. */
  readonly causes: readonly number[];
  readonly remaining: readonly number[];
  /** P(observation at level 0 after all tries, evidence and reports). */
  readonly noneNow: readonly number[];
}

/**
 * Enumerates every noise variable of the structural model: presence of each cause, the try that takes it away,
 * each activation of a mechanism, and (observation by observation) each raised level.
 */
export function bruteForceTwin(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  history: CaseHistory,
): TwinTruth {
  const { tries, complaint } = history;
  const worlds = tries.length + 1;
  const truth = { evidence: 0, goneNow: 0 };
  const causes = model.causes.map(() => 0);
  const remaining = model.causes.map(() => 0);
  const noneNow = model.observations.map(() => 0);

  // endOf[cause]: number of worlds in which it is alive; 0 when never present.
  const settleCauses = (cause: number, weight: number, endOf: number[]): void => {
    if (weight === 0) return;
    if (cause === model.causes.length) return settleMechanisms(0, 0, weight, endOf, []);
    const prior = priors[cause] ?? 0;
    settleCauses(cause + 1, weight * (1 - prior), [...endOf, 0]);
    let stays = prior;
    tries.forEach(({ removal }, t) => {
      const share = removal.find((entry) => entry.cause === cause)?.probability ?? 0;
      settleCauses(cause + 1, weight * stays * share, [...endOf, t + 1]);
      stays *= 1 - share;
    });
    settleCauses(cause + 1, weight * stays, [...endOf, worlds]);
  };
  const settleMechanisms = (
    m: number,
    link: number,
    weight: number,
    endOf: number[],
    ends: number[],
  ): void => {
    if (weight === 0) return;
    const mechanism = model.mechanisms[m];
    if (!mechanism) return settleObservations(weight, endOf, ends);
    if (ends.length === m) {
      settleMechanisms(m, 0, weight * mechanism.leak, endOf, [...ends, worlds]);
      settleMechanisms(m, 0, weight * (1 - mechanism.leak), endOf, [...ends, 0]);
      return;
    }
    const each = mechanism.links[link];
    if (!each) return settleMechanisms(m + 1, 0, weight, endOf, ends);
    const raised = [...ends];
    raised[m] = Math.max(raised[m] ?? 0, endOf[each.cause] ?? 0);
    settleMechanisms(m, link + 1, weight * each.probability, endOf, raised);
    settleMechanisms(m, link + 1, weight * (1 - each.probability), endOf, ends);
  };
  const settleObservations = (weight: number, endOf: number[], ends: number[]): void => {
    let likelihood = 1;
    // goneFirst[w]: P(complaint findings as seen, complaint first gone in world w); w = worlds means still there.
    let goneFirst: number[] = [1];
    model.observations.forEach((observation, index) => {
      const finding = evidence.find((entry) => entry.observation === index);
      if (!finding) return;
      const seenIn = history.seenAfterTries?.get(index) ?? 0;
      const joint = trajectories(observation, endOf, ends, worlds);
      const weighted = joint.map(({ levels, weight: w }) => ({
        levels,
        weight: w * likelihoodAt(finding, levels[seenIn] ?? 0),
      }));
      if (!complaint.includes(index)) {
        likelihood *= weighted.reduce((sum, each) => sum + each.weight, 0);
        return;
      }
      const next = new Array<number>(worlds + 1).fill(0);
      for (const each of weighted) {
        const gone = each.levels.indexOf(0);
        const first = gone < 0 ? worlds : gone;
        goneFirst.forEach((p, before) => {
          const at = Math.max(before, first);
          next[at] = (next[at] ?? 0) + p * each.weight;
        });
      }
      goneFirst = next;
    });
    let reported = 0;
    let gone = 0;
    goneFirst.forEach((p, first) => {
      const reports = tries.reduce((product, { outcome }, t) => {
        const isGone = complaint.length > 0 && first <= t + 1;
        return product * (isGone ? OUTCOME_LIKELIHOOD[outcome].gone : OUTCOME_LIKELIHOOD[outcome].there);
      }, p);
      reported += reports;
      if (first < worlds) gone += reports;
    });
    const all = weight * likelihood * (complaint.length === 0 ? 1 : reported);
    truth.evidence += all;
    truth.goneNow += weight * likelihood * gone;
    endOf.forEach((end, cause) => {
      if (end > 0) causes[cause] = (causes[cause] ?? 0) + all;
      if (end === worlds) remaining[cause] = (remaining[cause] ?? 0) + all;
    });
    model.observations.forEach((observation, index) => {
      if (evidence.some((entry) => entry.observation === index)) return;
      const none = trajectories(observation, endOf, ends, worlds).reduce(
        (sum, each) => sum + (each.levels[worlds - 1] === 0 ? each.weight : 0),
        0,
      );
      noneNow[index] = (noneNow[index] ?? 0) + all * none;
    });
  };
  settleCauses(0, 1, []);
  return { ...truth, causes, remaining, noneNow };
}

function trajectories(observation: GraphObservation, endOf: number[], ends: number[], worlds: number) {
  const parents = [
    { end: worlds, levels: observation.leak },
    ...observation.links.map((link) => ({
      end: (link.from.kind === 'cause' ? endOf : ends)[link.from.index] ?? 0,
      levels: link.levels,
    })),
  ].filter((parent) => parent.end > 0);
  let joint = [{ levels: new Array<number>(worlds).fill(0), weight: 1 }];
  for (const parent of parents) {
    const next = new Map<string, { levels: number[]; weight: number }>();
    for (const each of joint) {
      parent.levels.forEach((p, level) => {
        if (p === 0) return;
        const levels = each.levels.map((before, world) =>
          world < parent.end ? Math.max(before, level) : before,
        );
        const key = levels.join();
        const known = next.get(key);
        next.set(key, { levels, weight: (known?.weight ?? 0) + each.weight * p });
      });
    }
    joint = [...next.values()];
  }
  return joint;
}

function likelihoodAt(finding: GraphEvidence, level: number): number {
  if (finding.kind === 'level') return level === finding.level ? 1 : 0;
  return finding.likelihood[level] ?? 0;
}
