/**
 * The numbers that inference works on: a layered network of two-valued causes, two-valued mechanisms and
 * observations with two or more levels, all gates leaky noisy-OR / noisy-MAX in the net (Díez) parameters:
 * a link's distribution is that of the child when this parent alone is present and the leak is silent.
 * Level 0 is always "absent", "none" or "normal". Nothing here knows words, units or files.
 */
export interface GraphModel {
  readonly causes: readonly GraphCause[];
  /** How many of the first causes are ranked as candidates; all when left out. */
  readonly rankedCauses?: number;
  readonly mechanisms: readonly GraphMechanism[];
  readonly observations: readonly GraphObservation[];
}

export interface GraphCause {
  readonly id: string;
  /** Prior probability (0–1) before conditions of a case move it. */
  readonly prior: number;
}

export interface GraphMechanism {
  readonly id: string;
  /** Probability (0–1) that it is going with no cause of the network behind it. */
  readonly leak: number;
  readonly links: readonly { readonly cause: number; readonly probability: number }[];
}

export interface GraphObservation {
  readonly id: string;
  /** Distribution over levels (length = number of levels, sum 1) with no parent present. */
  readonly leak: readonly number[];
  readonly links: readonly GraphLink[];
  /**
   * For an observation that speaks of what accounts for a complaint, not of what is there: by cause, the distribution over
   * levels when that cause accounts for it. `complaintModel` hangs it from there.
   */
  readonly accountLevels?: readonly (readonly number[])[];
  /**
   * For a complaint whose table says how often each cause alone brings it about: by cause, the distribution over levels, null
   * for "never". It stands in the place of what follows from links and mechanisms.
   */
  readonly reach?: readonly (readonly number[] | null)[];
}

export interface GraphLink {
  readonly from: { readonly kind: 'cause' | 'mechanism'; readonly index: number };
  /** Distribution over levels from this parent alone, leak silent. */
  readonly levels: readonly number[];
}

/** What is known of one observation: its level, or a likelihood for each level. */
export type GraphEvidence =
  | { readonly observation: number; readonly kind: 'level'; readonly level: number }
  | { readonly observation: number; readonly kind: 'likelihood'; readonly likelihood: readonly number[] };
