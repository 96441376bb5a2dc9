import { propagate, type CalibratedNetwork } from './calibrated-network.ts';
import { inOneOrder } from '../network/evidence-order.ts';
import type { GraphEvidence, GraphModel } from '../network/graph-model.ts';
import { posteriorOf } from './infer.ts';

/** Sets of findings remembered; a case of a hundred findings needs twice as many. */
const MOST_ENTRIES = 256;

/**
 * What plain findings, without tried remedies, say under one model and one set of priors: small results of earlier
 * questions. As a case grows by one finding at a time, all but one of the sets that sequential weights ask for have
 * been asked before. Other priors empty it.
 */
export class PosteriorCache {
  private readonly model: GraphModel;
  private priors: readonly number[] = [];
  private readonly logOddsOf = new Map<string, Float64Array | null>();
  private readonly logEvidenceOf = new Map<string, number>();

  constructor(model: GraphModel) {
    this.model = model;
  }

  /** Natural log-odds of every cause; null when the findings exclude each other or the network is too wide. */
  logOdds(priors: readonly number[], evidence: readonly GraphEvidence[]): Float64Array | null {
    const known = this.recall(this.logOddsOf, priors, evidence);
    if (known !== undefined) return known;
    return this.learn(evidence, propagate(this.model, priors, inOneOrder(evidence)));
  }

  /** Natural log of the probability of the findings; NaN when the network is too wide. */
  logEvidence(priors: readonly number[], evidence: readonly GraphEvidence[]): number {
    const known = this.recall(this.logEvidenceOf, priors, evidence);
    if (known !== undefined) return known;
    this.learn(evidence, propagate(this.model, priors, inOneOrder(evidence)));
    return this.logEvidenceOf.get(keyOf(evidence)) ?? NaN;
  }

  /** Takes in a network worked out elsewhere; one with tried remedies is passed over. */
  take(
    priors: readonly number[],
    evidence: readonly GraphEvidence[],
    network: CalibratedNetwork | null,
  ): void {
    if (network && (network.history.tries.length > 0 || network.model !== this.model)) return;
    if (this.recall(this.logEvidenceOf, priors, evidence) === undefined) this.learn(evidence, network);
  }

  private learn(evidence: readonly GraphEvidence[], network: CalibratedNetwork | null): Float64Array | null {
    const key = keyOf(evidence);
    const found = network && posteriorOf(network);
    const logOdds = found?.kind === 'ok' ? found.causeLogOdds : null;
    remember(this.logOddsOf, key, logOdds);
    remember(this.logEvidenceOf, key, network ? network.logEvidence : NaN);
    return logOdds;
  }

  private recall<T>(
    store: Map<string, T>,
    priors: readonly number[],
    evidence: readonly GraphEvidence[],
  ): T | undefined {
    const isSame =
      priors === this.priors ||
      (priors.length === this.priors.length && priors.every((prior, k) => prior === this.priors[k]));
    if (!isSame) {
      this.logOddsOf.clear();
      this.logEvidenceOf.clear();
    }
    this.priors = [...priors];
    return store.get(keyOf(evidence));
  }
}

/** The same for every order of entry. */
function keyOf(evidence: readonly GraphEvidence[]): string {
  return evidence
    .map(
      (one) =>
        `${one.observation}:${one.kind === 'level' ? one.level : one.likelihood.join(',')}/${one.kind}`,
    )
    .sort()
    .join(' ');
}

function remember<T>(store: Map<string, T>, key: string, value: T): void {
  store.delete(key);
  store.set(key, value);
  const [oldest] = store.keys();
  if (store.size > MOST_ENTRIES && oldest !== undefined) store.delete(oldest);
}
