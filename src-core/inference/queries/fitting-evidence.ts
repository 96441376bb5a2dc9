import { inOneOrder } from '../network/evidence-order.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';
import { propagate, type CalibratedNetwork, type InferenceOptions } from './calibrated-network.ts';

/** A network that could be run exactly, and what had to be left out for it. */
export interface FittingNetwork {
  readonly network: CalibratedNetwork;
  /** The evidence that it takes in, in the order given. */
  readonly evidence: readonly GraphEvidence[];
  /** Observations whose findings were left out; empty where all of them fit. */
  readonly setAside: readonly number[];
}

/**
 * Runs a network on all of the evidence or, where that is too wide for exact work, on as much as fits: first without one finding,
 * those that say least tried first (absent ones, then those not sure, then present ones; in each the one with most links, which
 * makes most width); where no single one is enough the widest goes for good and the next is looked for. A posterior of nearly all
 * findings tells more than bounds on that of all, which are next to nothing as soon as remedies were tried.
 *
 * `kept` are observations that stay; `reluctantly` those that go only after all others. The order of the evidence decides nothing.
 * Null where it does not even fit with the kept ones alone. Wrong use throws as {@link propagate} does.
 */
export function propagateWhatFits(
  model: GraphModel,
  priors: readonly number[],
  given: readonly GraphEvidence[],
  options: InferenceOptions,
  { kept, reluctantly = [] }: { readonly kept: readonly number[]; readonly reluctantly?: readonly number[] },
): FittingNetwork | null {
  const evidence = inOneOrder(given);
  const whole = propagate(model, priors, evidence, options);
  if (whole) return { network: whole, evidence: given, setAside: [] };
  const links = ({ observation }: GraphEvidence) => model.observations[observation]?.links.length ?? 0;
  const sayingLeastFirst = evidence
    .filter(({ observation }) => !kept.includes(observation))
    .map((finding) => ({
      finding,
      late: reluctantly.includes(finding.observation) ? 1 : 0,
      says: finding.kind === 'likelihood' ? 1 : finding.level === 0 ? 0 : 2,
    }))
    .sort(
      (a, b) =>
        a.late - b.late ||
        a.says - b.says ||
        links(b.finding) - links(a.finding) ||
        a.finding.observation - b.finding.observation,
    );
  const aside = new Set<GraphEvidence>();
  for (;;) {
    const left = sayingLeastFirst.filter(({ finding }) => !aside.has(finding));
    for (const { finding } of left) {
      const fewer = evidence.filter((one) => one !== finding && !aside.has(one));
      const network = propagate(model, priors, fewer, options);
      if (network)
        return {
          network,
          evidence: given.filter((one) => fewer.includes(one)),
          setAside: [...aside, finding].map(({ observation }) => observation),
        };
    }
    const [widest] = left.toSorted((a, b) => a.late - b.late || links(b.finding) - links(a.finding));
    if (!widest) return null;
    aside.add(widest.finding);
  }
}
