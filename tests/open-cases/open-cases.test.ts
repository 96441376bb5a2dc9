import { describe, expect, it } from 'vitest';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { answerTo, readOpenCases } from './open-cases.ts';

const knowledge = shippedKnowledge();
const cases = readOpenCases();

describe('open real cases', () => {
  it('are 21, each told in ids that the guide knows', () => {
    expect(cases).toHaveLength(21);
    for (const { accepted } of cases)
      for (const cause of accepted) expect(knowledge.causes.has(cause), cause).toBe(true);
  });

  it.each(cases)(
    '$id: reasoned exactly, "not in this guide" kept open, and a next step proposed',
    (openCase) => {
      const { diagnosis } = answerTo(knowledge, openCase);
      expect(diagnosis.exact).toBe(true);
      expect(diagnosis.candidates.some(({ cause }) => cause === 'cause-not-in-guide')).toBe(true);
      expect(['check', 'remedy']).toContain(diagnosis.next.kind);
      const probabilities = diagnosis.candidates.map(({ probability }) => probability);
      expect(probabilities).toEqual(probabilities.toSorted((a, b) => b - a));
    },
  );

  it('are called accepted by a lead only where the confirmed cause is among the first three', () => {
    for (const openCase of cases.filter(({ lead }) => lead.accepts === 'yes'))
      expect(answerTo(knowledge, openCase).rank, openCase.id).toBeLessThanOrEqual(3);
    expect(cases.filter(({ lead }) => lead.accepts !== 'no').length).toBeGreaterThanOrEqual(18);
  });

  it('the confirmed cause is first in at least half and among the first three in at least two thirds', () => {
    const ranks = cases.map((openCase) => answerTo(knowledge, openCase).rank);
    expect(ranks.filter((rank) => rank === 1).length).toBeGreaterThanOrEqual(11);
    expect(ranks.filter((rank) => rank >= 1 && rank <= 3).length).toBeGreaterThanOrEqual(14);
  });
});
