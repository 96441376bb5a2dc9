import { believe, type InferenceOptions } from './belief.ts';
import type { GraphEvidence, GraphModel } from './graph-model.ts';

export type Conflict =
  | {
      readonly kind: 'ok';
      /** Above 0: the findings go together less well than independent ones would. */
      readonly bits: number;
      /** What each finding adds: the measure of all findings less that without it. */
      readonly contributions: Float64Array;
      /** Index into the evidence of the finding that adds most; -1 when none adds anything. */
      readonly mostConflicting: number;
    }
  | { readonly kind: 'impossible-evidence' | 'too-wide' };

/**
 * Conflict of the findings: log2(product of P(e_i) / P(e)). Findings of one coherent story are more probable
 * together than apart, which makes it negative (Jensen, Chamberlain, Nordahl & Jensen, Analysis in HUGIN of data
 * conflict, UAI-6 (1990); Jensen & Nielsen 2007, section 5.2). A rare cause can make it positive too, so it is a
 * reason to look again, not proof of a mistake. Tried remedies are not part of it.
 */
export function conflict(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  options: Pick<InferenceOptions, 'limits'> = {},
): Conflict {
  const logOf = (findings: readonly GraphEvidence[]) =>
    believe(model, priors, findings, options)?.logEvidence ?? NaN;
  const whole = logOf(evidence);
  if (whole === -Infinity) return { kind: 'impossible-evidence' };
  const single = evidence.map((finding) => logOf([finding]));
  const sum = single.reduce((total, log) => total + log, 0);
  const measure = sum - whole;
  const contributions = Float64Array.from(evidence, (_, k) => {
    const without = sum - (single[k] ?? 0) - logOf(evidence.filter((__, j) => j !== k));
    return (measure - without) / Math.LN2;
  });
  if (Number.isNaN(measure) || contributions.some(Number.isNaN)) return { kind: 'too-wide' };
  const largest = Math.max(0, ...contributions);
  return {
    kind: 'ok',
    bits: measure / Math.LN2,
    contributions,
    mostConflicting: largest > 0 ? contributions.indexOf(largest) : -1,
  };
}
