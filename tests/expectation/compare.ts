import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { SOMETHING_ELSE, type Expectation } from './expectations.ts';
import { expectedShares, jensenShannonBits, networkShares } from './shares.ts';

/** A cause that people expect this often belongs among the first five. */
const EXPECTED_SHARE = 0.1;
/** A cause that people expect less often than this does not. */
const UNEXPECTED_SHARE = 0.01;
const FIRST = 5;

export interface Comparison {
  readonly expectation: Expectation;
  readonly network: ReadonlyMap<string, number>;
  readonly expected: ReadonlyMap<string, number>;
  /** Expected at 10 % and more, and not among the first five of the network. */
  readonly missed: readonly string[];
  /** Expected under 1 %, and among the first five. */
  readonly intruders: readonly string[];
  readonly divergenceBits: number;
}

/** Holds the network against one expectation. */
export function compare(knowledge: Knowledge, expectation: Expectation): Comparison {
  const network = networkShares(knowledge, expectation);
  const expected = expectedShares(expectation);
  const first = [...network.keys()].filter((id) => id !== SOMETHING_ELSE).slice(0, FIRST);
  return {
    expectation,
    network,
    expected,
    missed: [...expectation.shares]
      .filter(([id, share]) => share >= EXPECTED_SHARE && !first.includes(id))
      .map(([id]) => id),
    intruders: first.filter((id) => (expected.get(id) ?? 0) < UNEXPECTED_SHARE),
    divergenceBits: jensenShannonBits(network, expected),
  };
}

/** Complaints alone, then complaints with a circumstance. */
export function compareAll(knowledge: Knowledge, expectations: readonly Expectation[]): Comparison[] {
  return expectations
    .filter(({ id }) => knowledge.observations.get(id)?.complaint)
    .map((expectation) => compare(knowledge, expectation));
}

export function meanDivergence(comparisons: readonly Comparison[]): number {
  return comparisons.reduce((sum, { divergenceBits }) => sum + divergenceBits, 0) / comparisons.length;
}
