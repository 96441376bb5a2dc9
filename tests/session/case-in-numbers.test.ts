import { describe, expect, it } from 'vitest';
import type { Remedy, When } from '../../src-core/knowledge/schema.ts';
import { emptyContext, type CaseContext } from '../../src-core/session/case-context.ts';
import { caseProblem, remedyMinutes } from '../../src-core/session/case-problem.ts';
import { posteriorOf } from '../../src-core/session/reason-about.ts';
import { predict } from '../../src-core/inference/index.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';
import { remedyOf } from './small-remedy.ts';

const prior = { prior: { perHundredCases: 10, source: 'estimate' } };
const inState = (id: string, machine: 'hot' | 'cold' | 'printing' | 'opened', destroysPart = false) => {
  const one = observation(id, 0.02, 3, { complaint: false });
  return { ...one, check: { ...one.check, machine, destroysPart } };
};
const remedies: Remedy[] = [
  remedyOf('dry', { wet: 0.8, gone: 0.5 }),
  remedyOf('tighten', { slack: 0.9 }, { after: ['dry'] }),
  remedyOf('abs-only', { slack: 0.9 }, { when: { polymer: 'abs' } }),
  remedyOf('probe-only', { slack: 0.9 }, { when: { probe: 'yes' }, onlyWhenKnown: true }),
];
const asked = (id: string, askedWhen: When) => observation(id, 0.02, 3, { complaint: false, askedWhen });

const guide = smallGuide({
  observations: [
    observation('pops', 0.02, 1),
    observation('strings', 0.02, 1, { settles: ['steam-seen'] }),
    observation('steam-seen', 0.02, 2, { complaint: false }),
    observation('smoke', 0.001, 1, { danger: true, complaint: false }),
    inState('glows', 'hot'),
    inState('gear-turns', 'cold'),
    inState('snaps', 'cold', true),
    asked('probe-repeats', { probe: 'yes' }),
    observation('told-only', 0.02, 1, { complaint: false, onlyWhenLedTo: true }),
  ],
  causes: [
    cause('wet', { pops: 0.9, strings: 0.6, 'steam-seen': 0.8, glows: 0.1 }, prior),
    cause(
      'slack',
      { strings: 0.7, 'gear-turns': 0.8, snaps: 0.3, 'probe-repeats': 0.5, 'told-only': 0.4 },
      prior,
    ),
  ],
  remedies,
  machineStates: {
    preparation: { hot: { value: 6, source: 'estimate' }, opened: { value: 9, source: 'estimate' } },
    cooling: { value: 30, source: 'estimate' },
  },
});

function contextOf(findings: Record<string, string>, more: Partial<CaseContext> = {}): CaseContext {
  const complaints = ['pops', 'strings'].flatMap((id) =>
    findings[id] === undefined ? [] : [{ observation: id, value: findings[id] }],
  );
  return {
    ...emptyContext,
    intake: { printerId: null, spoolId: null, openedBy: null, conditions: {}, complaints, words: '' },
    findings,
    ...more,
  };
}
const problemOf = (findings: Record<string, string>, more: Partial<CaseContext> = {}) =>
  caseProblem(guide, contextOf(findings, more));
const POPS = { pops: 'present' };
/** Whatever else was found: only the popping is complained of. */
const ofPops = { intake: contextOf(POPS).intake };

describe('checks that are still open', () => {
  const open = (findings: Record<string, string>, more: Partial<CaseContext> = {}) =>
    problemOf(findings, more).checks.map(({ id }) => id);

  it('are those that were neither made, skipped nor found impossible to tell', () => {
    // Strings are a complaint that shows on the part: who says what is wrong has said them.
    expect(open(POPS)).toEqual(['steam-seen', 'glows', 'gear-turns', 'snaps', 'probe-repeats']);
    expect(open({ ...POPS, glows: 'absent' }, { skipped: ['snaps'], notTellable: ['gear-turns'] })).toEqual([
      'steam-seen',
      'probe-repeats',
    ]);
  });

  it('never have a danger sign among them: that is asked before anything else', () =>
    expect(open({})).not.toContain('smoke'));

  it('leave out what a finding settles, once it is there for sure', () => {
    for (const [value, isOpen] of [
      ['present', false],
      ['absent', true],
      ['probably', true],
      ['probably-not', true],
    ] as const)
      expect(open({ pops: 'present', strings: value }, ofPops).includes('steam-seen'), value).toBe(isOpen);
    // What somebody complains of is there, however carefully it was put.
    expect(open({ pops: 'present', strings: 'probably' })).not.toContain('steam-seen');
  });

  it('leave out what this machine does not have, but ask while nobody has said', () => {
    expect(open(POPS, { conditions: { probe: 'no' } })).not.toContain('probe-repeats');
    expect(open(POPS, { conditions: { probe: 'yes' } })).toContain('probe-repeats');
  });

  it('keep apart what is asked only where something leads to it', () =>
    expect(problemOf(POPS).checksLedTo.map(({ id }) => id)).toEqual(['told-only']));

  it('cost the part that they break', () => {
    const minutes = new Map(problemOf(POPS).checks.map((one) => [one.id, one.minutes]));
    expect(minutes.get('snaps')).toBeGreaterThan(minutes.get('gear-turns') ?? Infinity);
  });
});

describe('remedies on offer', () => {
  const offered = (more: Partial<CaseContext> = {}) => problemOf(POPS, more).remedies.map(({ id }) => id);

  it('are those that the circumstances do not speak against; what few machines have only where it is known', () => {
    expect(offered()).toEqual(['dry', 'tighten', 'abs-only']);
    expect(offered({ conditions: { polymer: 'pla', probe: 'yes' } })).toEqual([
      'dry',
      'tighten',
      'probe-only',
    ]);
    expect(offered({ conditions: { probe: 'no' } })).toEqual(['dry', 'tighten', 'abs-only']);
  });

  it('leave out what was tried in this round or could not be done; an earlier round’s come again', () => {
    const tried = [{ remedy: 'dry', outcome: 'not-cured' as const }];
    expect(offered({ tried })).toEqual(['tighten', 'abs-only']);
    expect(offered({ tried, triedBefore: 1 })).toEqual(['dry', 'tighten', 'abs-only']);
    expect(offered({ notDoable: [{ remedy: 'tighten', reason: 'no-tool' }] })).toEqual(['dry', 'abs-only']);
  });

  it('name what they remove by today’s causes only, and what comes before them', () => {
    const [dry, tighten] = problemOf(POPS).remedies;
    expect(dry?.removes).toEqual([{ cause: 0, probability: 0.8 }]);
    expect(tighten?.after).toEqual(['dry']);
    expect(remedyMinutes(guide, 'dry')).toBe(10);
    expect(remedyMinutes(guide, 'nothing')).toBe(0);
  });
});

describe('what the machine is ready for', () => {
  const costs = { currency: 'Taler', workPerHour: 30, standstillPerHour: 30, parts: {}, isCounted: true };

  it('is what was looked at last, and cooling costs what waiting costs', () => {
    const { preparations, prepared } = problemOf({ ...POPS, glows: 'present' });
    expect(prepared).toContain('hot');
    expect(preparations.get('hot')).toBe(6);
    expect(preparations.get('opened')).toBe(9);
    // A tenth of the 30 min of cooling where nobody has said what a standstill costs.
    expect(preparations.get('cold')).toBeCloseTo(3, 12);
    // At 30 an hour of work and 30 of standstill a waiting minute counts half of a working one.
    const priced = caseProblem(guide, contextOf({ ...POPS, glows: 'present' }), costs);
    expect(priced.preparations.get('off')).toBeCloseTo(15, 12);
  });

  it('is cold while nothing hot was looked at last', () => {
    const { preparations, prepared } = problemOf({ glows: 'present', ...POPS });
    expect([...prepared].sort()).toEqual(['cold', 'off']);
    expect(preparations.get('cold')).toBe(0);
  });
});

describe('what trying a remedy says', () => {
  const beliefIn = (id: string, more: Partial<CaseContext>, findings: Record<string, string> = POPS) => {
    const posterior = posteriorOf(problemOf(findings, more));
    if (posterior.kind !== 'ok') throw new Error(posterior.kind);
    return posterior.causes[guide.causeIndex.get(id) ?? -1] ?? NaN;
  };
  const tried = (outcome: 'cured' | 'better' | 'not-cured' | 'worse', done?: 'doubtful') => ({
    tried: [{ remedy: 'dry', outcome, ...(done && { done }) }],
  });

  it('of one that did not cure speaks against what it takes away, less so where it was done doubtfully', () => {
    const before = beliefIn('wet', {});
    const doubtful = beliefIn('wet', tried('not-cured', 'doubtful'));
    const well = beliefIn('wet', tried('not-cured'));
    expect(well).toBeLessThan(doubtful);
    expect(doubtful).toBeLessThan(before);
  });

  it('takes a fault away also where the complaint is about another', () => {
    // Strings by a slack gear; steam by filament that may be wet besides.
    const strings = { strings: 'present', 'gear-turns': 'present' };
    const steamSeen = (more: Partial<CaseContext>) => {
      const { model, priors, evidence, history } = problemOf(strings, more);
      const forecast = predict(model, priors, evidence, { history });
      if (forecast.kind !== 'ok') throw new Error(forecast.kind);
      return 1 - (forecast.levels[guide.observationIndex.get('steam-seen') ?? -1]?.[0] ?? NaN);
    };
    const leak = 0.02;
    const before = steamSeen({}) - leak;
    const after = steamSeen(tried('not-cured')) - leak;
    expect(before).toBeGreaterThan(0.01);
    // Drying takes four of five wet spools' water away.
    expect(after).toBeLessThan(0.35 * before);
  });

  it('of one that is not of this guide says nothing', () =>
    expect(beliefIn('wet', { tried: [{ remedy: 'pray', outcome: 'not-cured' }] })).toBeCloseTo(
      beliefIn('wet', {}),
      12,
    ));

  it('says nothing while no complaint is left that it could have been judged by', () => {
    const gone = { pops: 'absent' };
    expect(problemOf(gone, tried('not-cured')).history.tries).toEqual([]);
    expect(beliefIn('wet', tried('not-cured'), gone)).toBeCloseTo(beliefIn('wet', {}, gone), 12);
  });

  it('counts a cure that another remedy followed as better: it did not last', () => {
    const outcomes = (more: Partial<CaseContext>) =>
      problemOf(POPS, more).history.tries.map(({ outcome }) => outcome);
    const cured = { remedy: 'dry', outcome: 'cured' as const };
    expect(outcomes({ tried: [cured] })).toEqual(['cured']);
    expect(outcomes({ tried: [cured, { remedy: 'tighten', outcome: 'not-cured' }] })).toEqual([
      'better',
      'not-cured',
    ]);
    // A remedy that no guide knows any more is no remedy that followed.
    expect(outcomes({ tried: [cured, { remedy: 'pray', outcome: 'not-cured' }] })).toEqual(['cured']);
  });

  it('leaves what was seen before as it was, and takes what is seen after it as it is now', () => {
    const findings = { ...POPS, 'steam-seen': 'absent', glows: 'absent' };
    const two = [
      { remedy: 'dry', outcome: 'not-cured' as const },
      { remedy: 'tighten', outcome: 'not-cured' as const },
    ];
    const seen = problemOf(findings, {
      tried: two,
      seenAfterTries: { pops: 2, 'steam-seen': 1, glows: 2, gone: 2 },
    }).history.seenAfterTries;
    // Between two remedies counts as before the first; a complaint is judged by the outcomes.
    expect([...(seen ?? [])]).toEqual([[guide.observationIndex.get('glows'), 2]]);
    expect(problemOf(findings, { seenAfterTries: { glows: 0 } }).history.seenAfterTries?.size).toBe(0);
    // Dry now, after drying, says little against wet filament then.
    const absent = { ...POPS, 'steam-seen': 'absent' };
    const dried = { tried: [{ remedy: 'dry', outcome: 'not-cured' as const }] };
    expect(beliefIn('wet', { ...dried, seenAfterTries: { 'steam-seen': 1 } }, absent)).toBeGreaterThan(
      beliefIn('wet', { ...dried, seenAfterTries: { 'steam-seen': 0 } }, absent),
    );
  });
});

it('the main complaint and all that is believed do not depend on the order in which complaints were named', () => {
  const findings = { pops: 'present', strings: 'present' };
  const turned = { strings: 'present', pops: 'present' };
  const problems = [problemOf(findings), problemOf(turned)];
  expect(new Set(problems.map(({ complaint }) => complaint.join())).size).toBe(1);
  expect(problems[0]?.complaint).toEqual([guide.observationIndex.get('pops')]);
  // With the gear found turning it is the slack that is likeliest, and what that raises.
  const slack = problemOf({ ...findings, 'gear-turns': 'present', 'steam-seen': 'absent' });
  expect(slack.complaint).toEqual([guide.observationIndex.get('strings')]);
  const [a, b] = problems.map((problem) => posteriorOf(problem));
  if (a?.kind !== 'ok' || b?.kind !== 'ok') throw new Error('no posterior');
  [...a.causes].forEach((p, index) => expect(b.causes[index]).toBeCloseTo(p, 12));
});
