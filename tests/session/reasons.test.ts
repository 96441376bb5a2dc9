import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src-core/knowledge/schema.ts';
import { emptyContext, type CaseContext } from '../../src-core/session/case-context.ts';
import { caseProblem } from '../../src-core/session/case-problem.ts';
import { posteriorOf } from '../../src-core/session/reason-about.ts';
import { conflictOf, reasonsFor } from '../../src-core/session/reasons.ts';
import { secondThoughts } from '../../src-core/session/second-thoughts.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';
import { remedyOf } from './small-remedy.ts';

const prior = (perHundredCases: number): Partial<Cause> => ({
  prior: { perHundredCases, source: 'estimate' },
});
const machineStates = { preparation: {}, cooling: { value: 20, source: 'estimate' } };
const guide = smallGuide({
  observations: [
    observation('pops', 0.02, 1),
    observation('steam-seen', 0.02, 2, { complaint: false, leak: { strength: 0.2, source: 'estimate' } }),
    observation('gear-turns', 0.02, 2, { complaint: false, leak: { strength: 0.2, source: 'estimate' } }),
    observation('weather', 0.02, 2, { complaint: false, leak: { strength: 0.5, source: 'estimate' } }),
  ],
  causes: [
    cause('wet', { pops: 0.8, 'steam-seen': 0.98, weather: 0.001 }, prior(10)),
    cause('slack', { pops: 0.7, 'gear-turns': 0.7 }, prior(10)),
  ],
  remedies: [remedyOf('dry', { wet: 0.9 }), remedyOf('tighten', { slack: 0.9 })],
  machineStates,
});
const WET = guide.causeIndex.get('wet') ?? -1;

function contextOf(findings: Record<string, string>, more: Partial<CaseContext> = {}): CaseContext {
  const complaints = [{ observation: 'pops', value: 'present' }];
  return {
    ...emptyContext,
    intake: { printerId: null, spoolId: null, openedBy: null, conditions: {}, complaints, words: '' },
    findings: { pops: 'present', ...findings },
    ...more,
  };
}
const reasons = (findings: Record<string, string>, isThorough: boolean, more: Partial<CaseContext> = {}) =>
  reasonsFor(caseProblem(guide, contextOf(findings, more)), isThorough);

describe('reasons for a cause', () => {
  const findings = { 'gear-turns': 'present', 'steam-seen': 'present', weather: 'absent' };

  it.each([true, false])(
    'stand heaviest first, for or against, and light ones are left out (thorough: %s)',
    (isThorough) => {
      const { because } = reasons(findings, isThorough);
      const ofWet = because[WET] ?? [];
      expect(ofWet.map(({ finding }) => finding)).not.toContain('weather');
      const heavy = ofWet.map(({ decibans }) => Math.abs(decibans));
      expect(heavy).toEqual([...heavy].sort((a, b) => b - a));
      const weightOf = (id: string) => ofWet.find(({ finding }) => finding === id)?.decibans ?? 0;
      expect(weightOf('steam-seen')).toBeGreaterThan(0.1);
      // What speaks for the rival speaks against.
      expect(weightOf('gear-turns')).toBeLessThan(-0.1);
    },
  );

  it('put what speaks heavily against before what speaks lightly for', () => {
    const { because } = reasons({ 'steam-seen': 'absent' }, true);
    const [first, ...others] = because[WET] ?? [];
    expect(first?.finding).toBe('steam-seen');
    expect(first?.decibans).toBeLessThan(0);
    expect(others.some(({ decibans }) => decibans > 0)).toBe(true);
  });

  it('add up, with what the tries say, to how far belief has come', () => {
    const more = { tried: [{ remedy: 'dry', outcome: 'not-cured' as const }] };
    const context = contextOf({ 'steam-seen': 'present' }, more);
    const problem = caseProblem(guide, context);
    const posterior = posteriorOf(problem);
    if (posterior.kind !== 'ok' || !posterior.exact) throw new Error('no exact posterior');
    const before = problem.priors[WET] ?? NaN;
    const moved =
      10 *
      Math.log10(
        (posterior.causes[WET] ?? NaN) / (1 - (posterior.causes[WET] ?? NaN)) / (before / (1 - before)),
      );
    const { because, tried } = reasonsFor(problem, true);
    const found = (because[WET] ?? []).reduce((sum, { decibans }) => sum + decibans, 0);
    expect(tried[WET]).toBeLessThan(-1);
    // Light reasons that were left out may be missing.
    expect(Math.abs(found + (tried[WET] ?? 0) - moved)).toBeLessThan(0.2);
  });

  it('say by which method they were weighed', () => {
    expect(reasons(findings, true).method).toContain('Shapley');
    expect(reasons(findings, false).method).toContain('after those entered before it');
  });
});

/** Nothing of the guide shows "never" at all: found there, nothing fits any more. */
const strict = smallGuide({
  observations: [
    observation('pops', 0.02, 1),
    { ...observation('never', 0.02, 1, { complaint: false }) },
    observation('other', 0.02, 1, { complaint: false }),
  ],
  causes: [cause('wet', { pops: 0.8, other: 0.5 }, prior(10)), cause('dry', { never: 0.5 }, prior(10))],
  remedies: [remedyOf('soak', { wet: 0.9 })],
  machineStates,
});
const impossible = () => {
  const problem = caseProblem(strict, contextOf({ other: 'present', never: 'present' }));
  const never = strict.observationIndex.get('never') ?? -1;
  const observations = problem.model.observations.map((one, index) =>
    index === never ? { ...one, leak: [1, 0], links: [] } : one,
  );
  return { ...problem, model: { ...problem.model, observations } };
};

describe('findings that do not go together', () => {
  const conflictIn = (findings: Record<string, string>) =>
    conflictOf(caseProblem(guide, contextOf(findings)));

  it('are measured from two findings on', () => expect(conflictIn({})).toEqual({ bits: 0, suspect: null }));

  it('of one story have no suspect that stands out', () => {
    const { bits } = conflictIn({ 'steam-seen': 'present' });
    expect(bits).toBeLessThan(0);
  });

  it('name one to look at again where they pull apart', () => {
    const found = conflictIn({ 'steam-seen': 'absent', 'gear-turns': 'absent' });
    expect(found.bits).toBeGreaterThan(0);
    expect(['pops', 'steam-seen', 'gear-turns']).toContain(found.suspect);
  });

  it('that exclude each other give no reasons, and the last one is to be looked at again', () => {
    expect(conflictOf(impossible())).toEqual({ bits: 99, suspect: 'never' });
    const { because, tried, method } = reasonsFor(impossible(), true);
    expect([because.flat(), new Set(tried), method]).toEqual([[], new Set([0]), 'not available']);
  });
});

describe('second thoughts', () => {
  it('never explain a complaint by nothing at all, and every share is a probability', () => {
    // Popping is often met with nothing behind it here: no cause at all is the likeliest of all sets.
    const leaky = smallGuide({
      observations: [
        observation('pops', 0.6, 1),
        observation('steam-seen', 0.02, 2, { complaint: false }),
        observation('gear-turns', 0.02, 2, { complaint: false }),
      ],
      causes: [
        cause('wet', { pops: 0.8, 'steam-seen': 0.7 }, prior(5)),
        cause('slack', { pops: 0.7, 'gear-turns': 0.7 }, prior(4)),
        cause('bent', { pops: 0.6 }, prior(3)),
      ],
      remedies: [remedyOf('dry', { wet: 0.9 })],
      machineStates,
    });
    const thoughts = secondThoughts(leaky, contextOf({}));
    const sets = thoughts?.explanations ?? [];
    expect(sets.length).toBeGreaterThan(0);
    for (const { causes, probability } of sets) {
      expect(causes.length).toBeGreaterThan(0);
      expect(probability).toBeGreaterThan(0);
      expect(probability).toBeLessThanOrEqual(1);
    }
    for (const { probability, check } of thoughts?.rivals ?? []) {
      expect(probability).toBeGreaterThan(0);
      if (check) expect(['steam-seen', 'gear-turns']).toContain(check.observation);
    }
  });
});
