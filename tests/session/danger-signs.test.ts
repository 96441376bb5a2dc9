import { describe, expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import type { Cause } from '../../src-core/knowledge/schema.ts';
import { createCaseFlow } from '../../src-core/session/case-flow.ts';
import { dangerSignsIn } from '../../src-core/session/danger-signs.ts';
import { reasonAbout } from '../../src-core/session/reason-about.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';
import { remedyOf } from './small-remedy.ts';

const likely: Partial<Cause> = { prior: { perHundredCases: 20, source: 'estimate' } };
const guide = smallGuide({
  observations: [
    observation('pops', 0.02, 1),
    observation('steam-seen', 0.02, 2, { complaint: false }),
    observation('smoke', 0.001, 1, { danger: true }),
    observation('sparks', 0.001, 1, { danger: true, complaint: false }),
  ],
  causes: [
    cause('wet', { pops: 0.9, 'steam-seen': 0.8 }, likely),
    cause('burnt-board', { pops: 0.6, smoke: 0.7, sparks: 0.5 }, likely),
  ],
  remedies: [remedyOf('dry', { wet: 0.9 }), remedyOf('replace-board', { 'burnt-board': 0.9 })],
  machineStates: { preparation: {}, cooling: { value: 20, source: 'estimate' } },
});
const flow = createCaseFlow(guide);

function after(...events: readonly CaseEvent[]) {
  const { moment, noPlaceFor } = flow.replay(
    events.map((event, i) => ({ seq: i + 1, at: '2026-03-02T12:00:00.000Z', event })),
  );
  return { ...moment, refused: noPlaceFor.length };
}

const opened = (observed: string, value: string): CaseEvent => ({
  kind: 'opened',
  intake: {
    printerId: null,
    spoolId: null,
    openedBy: null,
    conditions: {},
    complaints: [{ observation: observed, value }],
    words: '',
  },
});
const safe: CaseEvent = { kind: 'danger-answered', present: [] };
const remedy: CaseEvent = { kind: 'remedy-chosen', remedy: 'dry' };

/** Everything that may be answered to a two-valued question. */
const ANSWERS = ['present', 'probably', 'sometimes', 'probably-not', 'absent'];

describe('a sign of danger', () => {
  it.each(ANSWERS)(
    'answered "%s" stops the case unless it is surely not there, and then it is named',
    (value) => {
      const isClear = value === 'absent';
      const { state, context, refused } = after(opened('pops', 'present'), safe, {
        kind: 'answered',
        observation: 'smoke',
        value,
      });
      expect(refused).toBe(0);
      expect(state === 'make-safe').toBe(!isClear);
      expect(dangerSignsIn(guide, context.findings)).toEqual(isClear ? [] : ['smoke']);
    },
  );

  it.each(ANSWERS)('answered "%s" leaves no remedy on offer that the case would refuse', (value) => {
    const { context } = after(
      opened('pops', 'present'),
      safe,
      { kind: 'answered', observation: 'smoke', value },
      { kind: 'made-safe' },
    );
    const isRefused =
      after(
        opened('pops', 'present'),
        safe,
        { kind: 'answered', observation: 'smoke', value },
        { kind: 'made-safe' },
        remedy,
      ).state !== 'remedy';
    const { remedies, next } = reasonAbout(guide, context);
    expect(remedies.length > 0).toBe(!isRefused);
    expect(next.kind === 'remedy' && isRefused).toBe(false);
  });

  it.each(ANSWERS.filter((value) => value !== 'absent'))(
    'complained of as "%s" comes before any question',
    (value) => expect(after(opened('smoke', value)).state).toBe('make-safe'),
  );

  it('stops whatever is under way, and what was under way is not taken up again by itself', () => {
    const { state, context } = after(opened('pops', 'present'), safe, remedy, {
      kind: 'danger-answered',
      present: ['sparks'],
    });
    expect(state).toBe('make-safe');
    expect(context.remedy).toBeNull();
  });

  it('is nobody’s to pass over but a qualified person’s, and a new one is theirs to look at anew', () => {
    const stopped = [opened('smoke', 'present'), { kind: 'made-safe' }] as const;
    const takenOver: CaseEvent = { kind: 'taken-over', by: 'QE' };
    expect(after(...stopped, remedy).state).toBe('checking');
    expect(after(...stopped, takenOver, remedy).state).toBe('remedy');
    const again = after(...stopped, takenOver, { kind: 'danger-answered', present: ['sparks'] });
    expect([again.state, again.context.takenOverBy]).toEqual(['make-safe', null]);
  });

  it('is listed in the order in which the signs were found, and other findings are none', () =>
    expect(
      dangerSignsIn(guide, { sparks: 'present', pops: 'present', smoke: 'probably', gone: 'present' }),
    ).toEqual(['sparks', 'smoke']));
});

it('while a danger sign stands nothing is proposed that asks for a machine under power or hot', () => {
  const states = ['any', 'off', 'cold', 'motors-off', 'hot', 'printing', 'opened', 'part-in-hand'] as const;
  const withChecks = smallGuide({
    observations: [
      observation('pops', 0.02, 1),
      observation('smoke', 0.001, 1, { danger: true }),
      ...states.map((machine) => {
        const one = observation(`check-${machine}`, 0.02, 1, { complaint: false });
        return { ...one, check: { ...one.check, machine } };
      }),
    ],
    causes: [
      cause(
        'wet',
        { pops: 0.9, ...Object.fromEntries(states.map((state) => [`check-${state}`, 0.8])) },
        likely,
      ),
      cause('burnt-board', { pops: 0.6, smoke: 0.7 }, likely),
    ],
    remedies: [remedyOf('dry', { wet: 0.9 })],
    machineStates: { preparation: {}, cooling: { value: 20, source: 'estimate' } },
  });
  const found = (smoke: string) =>
    reasonAbout(withChecks, {
      ...after(opened('pops', 'present')).context,
      findings: { pops: 'present', smoke },
    });
  const asked = (smoke: string) => new Set(found(smoke).checks.map(({ observation: id }) => id));
  expect(asked('absent').size).toBe(states.length);
  expect(asked('present').size).toBe(0);
  expect(found('present').next).toMatchObject({ kind: 'hand-over', id: 'qualified-person' });
});
