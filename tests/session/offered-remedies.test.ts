import { expect, it } from 'vitest';
import { emptyContext, type TriedInCase } from '../../src-core/session/case-context.ts';
import { caseProblem } from '../../src-core/session/case-problem.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';
import { remedyOf } from './small-remedy.ts';

const prior = { prior: { perHundredCases: 10, source: 'estimate' } };
const guide = smallGuide({
  observations: [
    observation('strings', 0.02, 1),
    observation('melt-like-oil', 0.02, 1, { complaint: false }),
  ],
  causes: [cause('too-hot', { strings: 0.6, 'melt-like-oil': 0.3 }, prior)],
  remedies: [
    remedyOf('ten-degrees-less', { 'too-hot': 0.6 }, { acts: 'setting', notWith: ['melt-like-oil'] }),
    remedyOf('compare-with-thermometer', { 'too-hot': 0.5 }),
  ],
  machineStates: { preparation: {}, cooling: { value: 30, source: 'estimate' } },
});

function offered(
  findings: Record<string, string>,
  tried: readonly TriedInCase[] = [],
  triedBefore = 0,
): string[] {
  const context = {
    ...emptyContext,
    findings: { strings: 'present', ...findings },
    tried: [...tried],
    triedBefore,
  };
  return caseProblem(guide, context).remedies.map(({ id }) => id);
}

it('a remedy is not offered beside what it would hide, once that is there for sure', () => {
  expect(offered({ 'melt-like-oil': 'present' })).toEqual(['compare-with-thermometer']);
  for (const value of ['absent', 'probably'])
    expect(offered({ 'melt-like-oil': value })).toContain('ten-degrees-less');
});

it('what was done by halves once is offered again; done well, twice, or with harm it is not', () => {
  const small: TriedInCase = { remedy: 'ten-degrees-less', outcome: 'not-cured', reach: 'one-small-step' };
  const badly: TriedInCase = { remedy: 'ten-degrees-less', outcome: 'partly', done: 'doubtful' };
  expect(offered({}, [small])).toContain('ten-degrees-less');
  expect(offered({}, [badly])).toContain('ten-degrees-less');
  expect(offered({}, [small, badly])).not.toContain('ten-degrees-less');
  expect(offered({}, [{ ...small, outcome: 'worse' }])).not.toContain('ten-degrees-less');
  expect(offered({}, [{ ...small, reach: 'whole-range' }])).not.toContain('ten-degrees-less');
  // In a new round only this round's tries count.
  expect(offered({}, [small, badly], 1)).toContain('ten-degrees-less');
});
