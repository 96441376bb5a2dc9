import { describe, expect, it } from 'vitest';
import { emptyContext, type CaseContext } from '../../src-core/session/case-machine.ts';
import { rankCauses } from '../../src-core/session/reason-about.ts';
import { secondThoughts } from '../../src-core/session/second-thoughts.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const complaints = [{ observation: 'popping-while-loading', value: 'heavy' }];

function contextOf(findings: Record<string, string>): CaseContext {
  return {
    ...emptyContext,
    intake: { printerId: null, spoolId: null, openedBy: null, conditions: {}, complaints, words: '' },
    conditions: { polymer: 'abs', storage: 'open' },
    findings,
  };
}

describe('second thoughts about a case of the shipped guide', () => {
  const findings = { 'popping-while-loading': 'heavy' };
  const context = contextOf(findings);
  const ranking = rankCauses(knowledge, context);
  const thoughts = secondThoughts(knowledge, context);

  it('are about the first three of the ranking', () => {
    expect(thoughts?.first).toBe(ranking[0]?.cause);
    expect(thoughts?.rivals.map(({ cause }) => cause)).toEqual(ranking.slice(1, 3).map(({ cause }) => cause));
  });

  it('say of each answer what reasoning with that answer says', () => {
    for (const { observation, value, first, firstProbability } of thoughts?.mindChangers ?? []) {
      const [leader] = rankCauses(knowledge, contextOf({ ...findings, [observation]: value }));
      expect(leader?.cause, observation).toBe(first);
      expect(leader?.probability).toBeCloseTo(firstProbability, 8);
    }
    expect(thoughts?.mindChangers.length).toBeGreaterThan(0);
  });

  it('name weights by what they join, nearest to tipping first', () => {
    const moves = (thoughts?.weights ?? []).map(({ decibans }) => Math.abs(decibans));
    expect(moves.length).toBeGreaterThan(0);
    expect(moves).toEqual([...moves].sort((a, b) => a - b));
    for (const { from, to, probability, tipsAt } of thoughts?.weights ?? []) {
      expect(knowledge.causes.has(from) || knowledge.mechanisms.has(from), from).toBe(true);
      if (to !== null) expect(knowledge.mechanisms.has(to) || knowledge.observations.has(to), to).toBe(true);
      expect(tipsAt).not.toBeCloseTo(probability, 6);
    }
  });
});
