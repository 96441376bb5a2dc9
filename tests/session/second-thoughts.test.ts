import { describe, expect, it } from 'vitest';
import { emptyContext, type CaseContext } from '../../src-core/session/case-machine.ts';
import { rankCauses } from '../../src-core/session/reason-about.ts';
import { secondThoughts } from '../../src-core/session/second-thoughts.ts';
import { valueLabel } from '../../src-core/session/wording.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

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
    expect(thoughts?.first.cause).toBe(ranking[0]?.cause);
    expect(thoughts?.rivals.map(({ cause }) => cause)).toEqual(ranking.slice(1, 3).map(({ cause }) => cause));
  });

  it('say of each answer what reasoning with that answer says', () => {
    for (const { observation, value: label, first, firstProbability } of thoughts?.decisionChangingFindings ??
      []) {
      const value =
        knowledge
          .levelsOf(observation)
          .find((level) => inEnglish(valueLabel(knowledge, observation, level)) === inEnglish(label)) ?? '';
      const [leader] = rankCauses(knowledge, contextOf({ ...findings, [observation]: value }));
      expect(leader?.cause, observation).toBe(first.cause);
      expect(leader?.probability).toBeCloseTo(firstProbability, 8);
    }
    expect(thoughts?.decisionChangingFindings.length).toBeGreaterThan(0);
  });

  it('name weights by what they join, nearest to tipping first', () => {
    const moves = (thoughts?.weights ?? []).map(({ decibans }) => Math.abs(decibans));
    expect(moves.length).toBeGreaterThan(0);
    expect(moves).toEqual([...moves].sort((a, b) => a - b));
    for (const { label, probability, tipsAt } of thoughts?.weights ?? []) {
      expect(inEnglish(label)).not.toMatch(/^→|→ $|^, /);
      expect(tipsAt).not.toBeCloseTo(probability, 6);
    }
  });

  it('list the sets of causes that explain it, most probable first and none more probable than its causes', () => {
    const chances = new Map(ranking.map(({ cause, probability }) => [cause, probability]));
    const sets = thoughts?.explanations ?? [];
    expect(sets.length).toBeGreaterThan(0);
    expect(sets.map(({ probability }) => probability)).toEqual(
      sets.map(({ probability }) => probability).sort((a, b) => b - a),
    );
    for (const { causes, probability } of sets) {
      for (const { cause } of causes)
        expect(probability).toBeLessThanOrEqual((chances.get(cause) ?? 0) + 1e-9);
    }
  });
});
