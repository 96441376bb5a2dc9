import { propagate, type InferenceOptions } from '../queries/calibrated-network.ts';
import type { PosteriorCache } from '../queries/posterior-cache.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';
import { requireUsable } from '../network/validate.ts';
import { evidenceWithoutEach } from '../queries/without-each.ts';

export type Conflict =
  | {
      readonly kind: 'ok';
      /** Above 0: the findings go together less well than independent ones would. */
      readonly bits: number;
      /** What each finding adds: the measure of all findings less that without it; empty where that was not asked for. */
      readonly contributions: Float64Array;
      /** Index into the evidence of the finding that adds most; -1 when none adds anything. */
      readonly mostConflicting: number;
    }
  | { readonly kind: 'impossible-evidence' | 'too-wide' };

export interface ConflictOptions extends Pick<InferenceOptions, 'limits'> {
  /** Results of earlier questions about the same model. */
  readonly memory?: PosteriorCache;
  /** What each finding adds is worked out above this many bits only; always when left out. It takes most of the time. */
  readonly contributionsAboveBits?: number;
}

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
  options: ConflictOptions = {},
): Conflict {
  const { memory, contributionsAboveBits = -Infinity, ...given } = options;
  const logOf = (finding: GraphEvidence) =>
    memory?.logEvidence(priors, [finding]) ?? propagate(model, priors, [finding], given)?.logEvidence ?? NaN;
  requireUsable(model, priors, evidence);
  if (memory && contributionsAboveBits > -Infinity) {
    const whole = memory.logEvidence(priors, evidence);
    const bits = (evidence.reduce((total, finding) => total + logOf(finding), 0) - whole) / Math.LN2;
    if (bits <= contributionsAboveBits)
      return { kind: 'ok', bits, contributions: new Float64Array(0), mostConflicting: -1 };
  }
  const found = evidenceWithoutEach(model, priors, evidence, options.limits);
  if (!found) return { kind: 'too-wide' };
  const { whole, without } = found;
  if (whole === -Infinity) return { kind: 'impossible-evidence' };
  const single = evidence.map(logOf);
  const measure = single.reduce((total, log) => total + log, 0) - whole;
  const contributions = Float64Array.from(evidence, (_, k) => {
    return ((single[k] ?? NaN) - whole + (without[k] ?? NaN)) / Math.LN2;
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
