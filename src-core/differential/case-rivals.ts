import {
  infer,
  predict,
  type GraphEvidence,
  type GraphModel,
  type InferenceOptions,
} from '../inference/index.ts';
import { tellingApart, type Separation } from './telling-apart.ts';

/** What one answer to an open observation would do to the leading causes. */
export interface AnswerEffect {
  readonly observation: number;
  readonly level: number;
  /** Probability (0-1) of this answer. */
  readonly probability: number;
  /** The leading cause that would then come first. */
  readonly first: number;
  /** Its probability then. */
  readonly firstProbability: number;
}

export type Rivalry =
  | {
      readonly kind: 'ok';
      /** The leading causes, most probable first. */
      readonly leading: readonly number[];
      /** Strongest rivals of the first, at most two, each with the observations that tell it from the first, best first. */
      readonly rivals: readonly { readonly cause: number; readonly apart: readonly Separation<number>[] }[];
      /** Answers after which another of the leading causes comes first, most probable first. */
      readonly decisionChangingFindings: readonly AnswerEffect[];
    }
  | { readonly kind: 'impossible-evidence' | 'too-wide' };

/** Causes followed through every answer: one prediction each. */
const LEADING = 5;
const RIVALS = 2;

/**
 * The two strongest rivals of the first candidate, which of the open observations tell them from it, and which single
 * answers would put another first. Exact: a cause is a root, so P(answer | cause, evidence) is a prediction with its
 * prior at 1, and the posterior after an answer follows by Bayes' rule. "First" is among the leading five.
 *
 * `open` are observations without evidence that may be looked at. Eleven predictions at most; not for the answer path.
 */
export function rivalry(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  open: readonly number[],
  options: InferenceOptions = {},
): Rivalry {
  const now = infer(model, priors, evidence, options);
  if (now.kind !== 'ok') return now;
  if (!now.exact) return { kind: 'too-wide' };
  const overall = predict(model, priors, evidence, options);
  if (overall.kind !== 'ok') return overall;
  const leading = [...now.causes.keys()]
    .slice(0, model.rankedCauses)
    .sort((a, b) => (now.causes[b] ?? 0) - (now.causes[a] ?? 0))
    .slice(0, LEADING);
  /** Predictions with some causes settled; null when the findings exclude that. */
  const settled = (states: ReadonlyMap<number, 0 | 1>) => {
    const found = predict(
      model,
      priors.map((prior, cause) => states.get(cause) ?? prior),
      evidence,
      options,
    );
    return found.kind === 'ok' ? found.levels : null;
  };
  const given = leading.map((cause) => settled(new Map([[cause, 1]])));
  const [first = -1, ...others] = leading;
  const rivals = others.slice(0, RIVALS).map((cause) => {
    const ifFirst = settled(
      new Map([
        [first, 1],
        [cause, 0],
      ]),
    );
    const ifRival = settled(
      new Map([
        [first, 0],
        [cause, 1],
      ]),
    );
    const share = (now.causes[first] ?? 0) / ((now.causes[first] ?? 0) + (now.causes[cause] ?? 0));
    const apart = tellingApart(
      // Findings that exclude one of the two leave nothing to tell apart.
      ifFirst && ifRival
        ? open.map((observation) => ({
            observation,
            ifFirst: ifFirst[observation] ?? [],
            ifSecond: ifRival[observation] ?? [],
          }))
        : [],
      share,
    );
    return { cause, apart };
  });
  const decisionChangingFindings = open.flatMap((observation): AnswerEffect[] =>
    [...(overall.levels[observation] ?? [])].flatMap((probability, level) => {
      if (!(probability > 0)) return [];
      const after = leading.map(
        (cause, k) => ((now.causes[cause] ?? 0) * (given[k]?.[observation]?.[level] ?? 0)) / probability,
      );
      const most = Math.max(...after);
      const next = leading[after.indexOf(most)] ?? first;
      return next === first ? [] : [{ observation, level, probability, first: next, firstProbability: most }];
    }),
  );
  decisionChangingFindings.sort((a, b) => b.probability - a.probability);
  return { kind: 'ok', leading, rivals, decisionChangingFindings };
}
