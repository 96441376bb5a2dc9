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
  /** The same, with every cause that no reader named counted as "something else", which is what it was to them. */
  readonly namedDivergenceBits: number;
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
    namedDivergenceBits: jensenShannonBits(asNamed(network, expected), expected),
  };
}

/** The network's shares by what readers named; the rest is their "something else". */
function asNamed(
  network: ReadonlyMap<string, number>,
  expected: ReadonlyMap<string, number>,
): ReadonlyMap<string, number> {
  const shares = new Map<string, number>();
  for (const [id, share] of network) {
    const name = expected.has(id) ? id : SOMETHING_ELSE;
    shares.set(name, (shares.get(name) ?? 0) + share);
  }
  return shares;
}

/** Complaints alone, then complaints with a circumstance. */
export function compareAll(knowledge: Knowledge, expectations: readonly Expectation[]): Comparison[] {
  return expectations
    .filter(({ id }) => knowledge.observations.get(id)?.complaint)
    .map((expectation) => compare(knowledge, expectation));
}

export function meanDivergence(
  comparisons: readonly Comparison[],
  figure: 'divergenceBits' | 'namedDivergenceBits' = 'divergenceBits',
): number {
  return comparisons.reduce((sum, one) => sum + one[figure], 0) / comparisons.length;
}
