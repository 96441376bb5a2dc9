import { describe, expect, it } from 'vitest';
import type { CaseEvent, Intake } from '../../src-core/contract/case-event.ts';
import { createCaseFlow } from '../../src-core/session/case-flow.ts';
import type { CaseContext } from '../../src-core/session/case-context.ts';
import type { LoggedEvent } from '../../src-core/session/logged-event.ts';
import { reasonAbout } from '../../src-core/session/reason-about.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const flow = createCaseFlow(knowledge);
const [dry = ''] = [...knowledge.remedies.values()]
  .filter((one) => one.removes.some(({ cause }) => cause === 'wet-filament'))
  .map(({ id }) => id);

const intake: Intake = {
  printerId: null,
  spoolId: null,
  openedBy: 'RK',
  conditions: { polymer: 'abs' },
  complaints: [{ observation: 'popping-while-loading', value: 'slight' }],
  words: '',
};
const begun: CaseEvent[] = [
  { kind: 'opened', intake },
  { kind: 'danger-answered', present: [] },
];
const done: CaseEvent[] = [
  { kind: 'remedy-chosen', remedy: dry },
  { kind: 'step-ticked', step: 0, isDone: true },
  { kind: 'remedy-done' },
];
const cured: CaseEvent = { kind: 'verified', outcome: 'cured' };
const resumed: CaseEvent = { kind: 'resumed', to: 'where-it-was' };
const closed: CaseEvent = {
  kind: 'closed',
  causes: [{ cause: 'wet-filament' }],
  practice: null,
  minutesLost: 0,
  gramsScrapped: 0,
  note: '',
};

function replay(...events: CaseEvent[]) {
  const log = events.map((event, i): LoggedEvent => ({ seq: i + 1, at: '2026-03-02T12:00:00.000Z', event }));
  const { moment, noPlaceFor } = flow.replay(log);
  expect(noPlaceFor).toEqual([]);
  return moment;
}

/** What is offered: whether checks and remedies are, and whether drying is among the remedies. */
function offered(context: CaseContext) {
  const { checks, remedies } = reasonAbout(knowledge, context);
  return {
    checks: checks.length,
    remedies: remedies.length,
    dry: remedies.some(({ remedy }) => remedy === dry),
  };
}

describe('parking (A2)', () => {
  it('after "remedy done" comes back to "did it work?", with the remedy and its ticked steps', () => {
    const { state, context } = replay(
      ...begun,
      ...done,
      { kind: 'parked', note: 'dries overnight' },
      resumed,
    );
    expect(state).toBe('verification');
    expect(context.remedy).toEqual({ id: dry, doneSteps: [0] });
    const after = replay(...begun, ...done, { kind: 'parked', note: '' }, resumed, {
      kind: 'verified',
      outcome: 'better',
    });
    expect(after.context.tried).toEqual([{ remedy: dry, outcome: 'better' }]);
  });

  it('reads an entry of before 27 November 2026 as it was meant then: back to checking', () => {
    const { state, context } = replay(...begun, ...done, { kind: 'parked', note: '' }, { kind: 'resumed' });
    expect([state, context.remedy]).toEqual(['checking', null]);
  });
});

describe('a cured case taken up again (A3)', () => {
  it.each<[string, CaseEvent[]]>([
    ['reopened after closing', [cured, closed, resumed]],
    ['gone on with instead of closing', [cured, { kind: 'checking-resumed' }]],
  ])('%s: the cure is history, and checks and remedies are offered again', (_how, events) => {
    const { state, context } = replay(...begun, ...done, ...events);
    expect(state).toBe('checking');
    expect(context.tried).toEqual([{ remedy: dry, outcome: 'came-back' }]);
    const now = offered(context);
    expect(now.checks).toBeGreaterThan(0);
    expect(now.remedies).toBeGreaterThan(0);
    expect(now.dry).toBe(true);
  });

  it('offers again what was skipped or could not be told in the round before', () => {
    const { context } = replay(
      ...begun,
      { kind: 'skipped', observation: 'vapour-at-head' },
      { kind: 'could-not-tell', observation: 'bubbly-free-air-extrusion' },
      closed,
      resumed,
    );
    expect([context.skipped, context.notTellable]).toEqual([[], []]);
  });
});

describe('a remedy that could not be done', () => {
  const couldNot: CaseEvent = { kind: 'could-not-be-done', reason: 'no-tool', note: 'dryer is lent' };

  it('is not offered again in this round, is not held to have failed, and is offered in the next', () => {
    const first = replay(...begun);
    expect(offered(first.context).dry).toBe(true);
    const then = replay(...begun, { kind: 'remedy-chosen', remedy: dry }, couldNot);
    expect(then.state).toBe('verdict');
    expect(then.context.tried).toEqual([]);
    const now = offered(then.context);
    expect([now.dry, now.remedies > 0]).toEqual([false, true]);
    expect(reasonAbout(knowledge, then.context).candidates[0]).toEqual(
      reasonAbout(knowledge, first.context).candidates[0],
    );
    const next = replay(...begun, { kind: 'remedy-chosen', remedy: dry }, couldNot, closed, resumed);
    expect(offered(next.context).dry).toBe(true);
  });
});

describe('findings', () => {
  it('made again come last, so that the last thing looked at is the last (B4)', () => {
    const look = (observation: string): CaseEvent => ({ kind: 'answered', observation, value: 'none' });
    const { context } = replay(
      ...begun,
      look('vapour-at-head'),
      look('bubbly-free-air-extrusion'),
      look('vapour-at-head'),
    );
    expect(Object.keys(context.findings).at(-1)).toBe('vapour-at-head');
  });
});
