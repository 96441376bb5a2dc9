import { describe, expect, it } from 'vitest';
import { FAMILIES } from '../../src-core/knowledge/schema.ts';
import { dangerSignsIn } from '../../src-core/session/danger-signs.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { answerTo, CASE_KINDS, readReferenceCases, shareWithin } from './reference-cases.ts';

// With the guide of 150 causes an accepted cause was first in 96 % and among the first three in 98 %, and 85 % of the next
// steps were accepted ones. The guide of 323 causes names rivals that these stories do not rule out, and asks patterns and
// comparisons that did not exist when accepted steps were written down. Measured with it, on 117 cases: first 79 %, first
// three 93 %, next step 44 %. The floors lie a little under that. tests/open-cases measures strangers' reports.
const LEAST_FIRST = 0.75;
const LEAST_FIRST_THREE = 0.89;
const LEAST_NEXT_ACCEPTED = 0.4;

/** What the set must hold at least, so that easy cases do not crowd out the hard ones. */
const LEAST_OF_KIND = {
  typical: 15,
  thin: 20,
  misleading: 10,
  'two-causes': 8,
  'null-results': 10,
  'moisture-in-vain': 8,
  'opposite-cures': 6,
} as const;

const knowledge = shippedKnowledge();
const cases = readReferenceCases();
const answers = cases.map((one) => answerTo(knowledge, one));
const ranks = answers.map(({ rank }) => rank);

describe('reference cases', () => {
  it('are at least 80, each with its own id, and every kind is there in numbers', () => {
    expect(cases.length).toBeGreaterThanOrEqual(80);
    expect(new Set(cases.map(({ id }) => id)).size).toBe(cases.length);
    for (const kind of CASE_KINDS) {
      const count = cases.filter((one) => one.kind === kind).length;
      expect(count, kind).toBeGreaterThanOrEqual(LEAST_OF_KIND[kind]);
    }
  });

  it('name accepted causes, checks and remedies that the guide knows', () => {
    for (const { id, accepted, acceptedNext } of cases) {
      for (const cause of accepted) expect(knowledge.causes.has(cause), `${id}: ${cause}`).toBe(true);
      for (const check of acceptedNext.checks) {
        expect(knowledge.observations.has(check), `${id}: ${check}`).toBe(true);
      }
      for (const remedy of acceptedNext.remedies) {
        expect(knowledge.remedies.has(remedy), `${id}: ${remedy}`).toBe(true);
      }
    }
  });

  it('cover every family of causes', () => {
    const families = new Set(
      cases.flatMap(({ accepted }) => accepted.map((id) => knowledge.causes.get(id)?.family)),
    );
    for (const family of FAMILIES) expect(families, family).toContain(family);
  });

  it.each(cases.map((one, index) => ({ id: one.id, index })))(
    '$id: reasoned exactly, "not in this guide" kept open, and a next step proposed',
    ({ index }) => {
      const diagnosis = answers[index]?.diagnosis;
      expect(diagnosis?.exact).toBe(true);
      expect(diagnosis?.candidates.some(({ cause }) => cause === 'cause-not-in-guide')).toBe(true);
      // After a danger sign nothing is proposed until a qualified person takes over.
      const isDanger = dangerSignsIn(knowledge, cases[index]?.findings ?? {}).length > 0;
      if (isDanger) expect(diagnosis?.next).toMatchObject({ kind: 'hand-over', id: 'qualified-person' });
      else expect(['check', 'remedy']).toContain(diagnosis?.next.kind);
    },
  );

  it('put an accepted cause first, and among the first three, as often as when last measured', () => {
    expect(shareWithin(ranks, 1)).toBeGreaterThanOrEqual(LEAST_FIRST);
    expect(shareWithin(ranks, 3)).toBeGreaterThanOrEqual(LEAST_FIRST_THREE);
  });

  it('get a next step that is among the accepted ones as often as when last measured', () => {
    const accepted = answers.filter(({ isNextAccepted }) => isNextAccepted).length;
    expect(accepted / answers.length).toBeGreaterThanOrEqual(LEAST_NEXT_ACCEPTED);
  });
});
