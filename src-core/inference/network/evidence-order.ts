import type { GraphEvidence } from './graph-model.ts';

/**
 * Findings by observation. How wide a network is, and the last bits of what comes out of it, depend a little on the order it is
 * made in: in this one the same findings give the same, to the last bit, whichever was made or asked for first.
 */
export function inOneOrder(evidence: readonly GraphEvidence[]): GraphEvidence[] {
  return evidence.toSorted((a, b) => a.observation - b.observation);
}
