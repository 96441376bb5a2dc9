import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { CAUSE_NOT_IN_GUIDE } from '../../src-core/knowledge/compile.ts';
import { emptyContext, type CaseContext } from '../../src-core/session/case-machine.ts';
import { rankCauses } from '../../src-core/session/reason-about.ts';
import { levelOfFinding } from '../../src-core/session/finding-level.ts';
import { SOMETHING_ELSE, type Expectation } from './expectations.ts';

/** A case with one complaint or finding, and what is known besides. */
export function contextOf(knowledge: Knowledge, { id, conditions }: Expectation): CaseContext {
  const isComplaint = knowledge.observations.get(id)?.complaint === true;
  const intake = {
    printerId: null,
    spoolId: null,
    openedBy: null,
    conditions,
    complaints: isComplaint ? [{ observation: id, value: 'present' }] : [],
    words: '',
  };
  const isKnown = levelOfFinding(knowledge, id, 'present') > 0;
  return { ...emptyContext, intake, conditions, findings: isKnown ? { [id]: 'present' } : {} };
}

/** The network's shares (sum 1) of what accounts for a complaint, most first; the unknown cause is "something else". */
export function networkShares(knowledge: Knowledge, expectation: Expectation): Map<string, number> {
  const ranked = rankCauses(knowledge, contextOf(knowledge, expectation));
  const total = ranked.reduce((sum, { probability }) => sum + probability, 0);
  return new Map(
    ranked.map(({ cause, probability }) => [
      cause === CAUSE_NOT_IN_GUIDE ? SOMETHING_ELSE : cause,
      probability / total,
    ]),
  );
}

/** Jensen-Shannon divergence of two distributions, in bits: 0 alike, 1 without anything in common (Lin, IEEE Trans. IT 37 (1991) 145-151). */
export function jensenShannonBits(a: ReadonlyMap<string, number>, b: ReadonlyMap<string, number>): number {
  let bits = 0;
  for (const id of new Set([...a.keys(), ...b.keys()])) {
    const p = a.get(id) ?? 0;
    const q = b.get(id) ?? 0;
    const mean = (p + q) / 2;
    if (p > 0) bits += (p / 2) * Math.log2(p / mean);
    if (q > 0) bits += (q / 2) * Math.log2(q / mean);
  }
  return Math.max(0, bits);
}

/** Shares with "something else" among them, as the network gives them. */
export function expectedShares({ shares, somethingElse }: Expectation): Map<string, number> {
  return new Map([...shares, [SOMETHING_ELSE, somethingElse]]);
}
