import {
  conflict,
  explainWeights,
  type PosteriorCache,
  type GraphEvidence,
  type Posterior,
} from '../inference/index.ts';
import type { CaseProblem } from './case-problem.ts';
import type { CaseReasoning } from './case-reasoning.ts';

/** Evidence for conflict worth pointing out: the findings are this many bits less likely together than apart. */
export const CONFLICT_FLAG_BITS = 1;
/** A weight below this (decibans) is no reason worth a line. */
const LEAST_DECIBANS = 0.1;

export interface Reasons {
  /** For each cause (by index): findings with their weights, heaviest first, light ones left out. */
  readonly because: readonly (readonly { readonly finding: string; readonly decibans: number }[])[];
  /** Decibans that tried remedies add, by cause. */
  readonly tried: readonly number[];
  readonly method: string;
}

/** What has been worked out already. */
export interface ReasonsAtHand {
  readonly memory?: PosteriorCache;
  readonly posterior?: Posterior;
}

/**
 * Weights of evidence for every cause. `isThorough` averages over all orders of entry where there are few findings
 * (some hundred posteriors); otherwise each finding is weighed after those entered before it (one posterior each).
 */
export function reasonsFor(problem: CaseProblem, isThorough: boolean, at: ReasonsAtHand = {}): Reasons {
  const found = explainWeights(problem.model, problem.priors, problem.evidence, {
    ...at,
    history: problem.history,
    ...(isThorough ? {} : { shapleyUpTo: 0 }),
  });
  if (found.kind !== 'ok')
    return {
      because: problem.priors.map(() => []),
      tried: problem.priors.map(() => 0),
      method: 'not available',
    };
  const ids = problem.evidence.map(({ observation }) => problem.model.observations[observation]?.id ?? '');
  return {
    because: found.findings.map((weights) =>
      [...weights]
        .map((decibans, index) => ({ finding: ids[index] ?? '', decibans }))
        .filter(({ decibans }) => Math.abs(decibans) >= LEAST_DECIBANS)
        .sort((a, b) => Math.abs(b.decibans) - Math.abs(a.decibans)),
    ),
    tried: [...found.tried],
    method:
      found.method === 'shapley'
        ? 'Each finding weighed in every order of entry and averaged (Shapley values of the log-odds).'
        : 'Each finding weighed after those entered before it.',
  };
}

/**
 * How badly the findings fit together, and, where that is worth pointing out, which to look at again; findings that exclude each
 * other are endless bits.
 */
export function conflictOf(
  { model, priors, evidence }: CaseProblem,
  memory?: PosteriorCache,
): CaseReasoning['conflict'] {
  if (evidence.length < 2) return { bits: 0, suspect: null };
  const found = conflict(model, priors, evidence, {
    ...(memory && { memory }),
    contributionsAboveBits: CONFLICT_FLAG_BITS,
  });
  if (found.kind === 'impossible-evidence') return { bits: 99, suspect: idOf(evidence.at(-1)) };
  if (found.kind !== 'ok') return { bits: 0, suspect: null };
  return {
    bits: found.bits,
    suspect: found.mostConflicting < 0 ? null : idOf(evidence[found.mostConflicting]),
  };

  function idOf(finding: GraphEvidence | undefined): string | null {
    return finding === undefined ? null : (model.observations[finding.observation]?.id ?? null);
  }
}
