import { getShortestPaths } from 'xstate/graph';
import { describe, expect, it } from 'vitest';
import type { CaseEvent, Intake } from '../../src-core/contract/case-event.ts';
import { createCaseFlow } from '../../src-core/session/case-flow.ts';
import { createCaseMachine, machineEvent } from '../../src-core/session/case-machine.ts';
import { eventsInForce, type LoggedEvent } from '../../src-core/session/logged-event.ts';
import { CASE_STATES } from '../../src-core/contract/case-view.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

const knowledge = shippedKnowledge();
const flow = createCaseFlow(knowledge);

const intake: Intake = {
  printerId: null,
  spoolId: null,
  openedBy: 'RK',
  conditions: { polymer: 'abs', 'nozzle-mm': 0.8 },
  complaints: [{ observation: 'popping-while-loading', value: 'slight' }],
  words: '',
};
const dry =
  [...knowledge.remedies.values()].find((one) => one.removes.some(({ cause }) => cause === 'wet-filament'))
    ?.id ?? '';

function logOf(...events: CaseEvent[]): LoggedEvent[] {
  return events.map((event, index) => ({ seq: index + 1, at: '2026-03-02T12:00:00.000Z', event }));
}

const opened: CaseEvent = { kind: 'opened', intake };
const safe: CaseEvent = { kind: 'danger-answered', present: [] };
const closed: CaseEvent = {
  kind: 'closed',
  causes: [{ cause: 'wet-filament' }, { named: 'Cracked tub lid' }],
  practice: null,
  minutesLost: 40,
  gramsScrapped: 12,
  note: '',
};

describe('the flow of a case', () => {
  it('runs from complaint over gate, check, remedy and verification to closed with two causes', () => {
    const result = flow.replay(
      logOf(
        opened,
        safe,
        { kind: 'answered', observation: 'vapour-at-head', value: 'slight' },
        { kind: 'verdict-asked' },
        { kind: 'remedy-chosen', remedy: dry },
        { kind: 'step-ticked', step: 0, isDone: true },
        { kind: 'remedy-done' },
        { kind: 'verified', outcome: 'cured' },
        closed,
      ),
    );
    expect(result.noPlaceFor).toEqual([]);
    expect(result.moment.state).toBe('closed');
    expect(result.moment.context.closing?.causes).toHaveLength(2);
    expect(result.moment.context.tried).toEqual([{ remedy: dry, outcome: 'cured' }]);
  });

  it('asks for power off before anything else when a dangerous sign is the complaint, answered at the gate or found later', () => {
    const danger = [...knowledge.observations.values()].find((one) => one.danger);
    if (!danger) throw new Error('the guide knows no dangerous sign');
    const value = knowledge.levelsOf(danger.id)[1] ?? 'present';
    const asComplaint = { ...intake, complaints: [{ observation: danger.id, value }] };
    expect(flow.replay(logOf({ kind: 'opened', intake: asComplaint })).moment.state).toBe('make-safe');
    expect(flow.replay(logOf(opened, { kind: 'danger-answered', present: [danger.id] })).moment.state).toBe(
      'make-safe',
    );
    expect(
      flow.replay(logOf(opened, safe, { kind: 'answered', observation: danger.id, value })).moment.state,
    ).toBe('make-safe');
    expect(
      inEnglish(
        flow.refusalOf(logOf({ kind: 'opened', intake: asComplaint }), { kind: 'verdict-asked' }) ?? [],
      ),
    ).toContain('make-safe');
  });

  it('takes a not-cured remedy as evidence and goes on checking', () => {
    const log = logOf(
      opened,
      safe,
      { kind: 'remedy-chosen', remedy: dry },
      { kind: 'remedy-done' },
      { kind: 'verified', outcome: 'not-cured' },
    );
    const { state, context } = flow.replay(log).moment;
    expect(state).toBe('checking');
    expect(context.tried).toEqual([{ remedy: dry, outcome: 'not-cured' }]);
  });

  it('remembers how many remedies were tried before a finding', () => {
    const log = logOf(
      opened,
      safe,
      { kind: 'answered', observation: 'bubbly-free-air-extrusion', value: 'slight' },
      { kind: 'remedy-chosen', remedy: dry },
      { kind: 'remedy-done' },
      { kind: 'verified', outcome: 'better' },
      { kind: 'answered', observation: 'vapour-at-head', value: 'none' },
    );
    expect(flow.replay(log).moment.context.seenAfterTries).toEqual({
      'bubbly-free-air-extrusion': 0,
      'vapour-at-head': 1,
    });
  });

  it('undo takes back the last event in force, again and again, and never the opening', () => {
    const log = logOf(
      opened,
      safe,
      { kind: 'answered', observation: 'vapour-at-head', value: 'heavy' },
      { kind: 'undone' },
      { kind: 'undone' },
      { kind: 'undone' },
    );
    expect(eventsInForce(log).map(({ event }) => event.kind)).toEqual(['opened']);
    const { state, context } = flow.replay(log).moment;
    expect(state).toBe('stop-now');
    expect(context.findings).toEqual({ 'popping-while-loading': 'slight' });
    expect(inEnglish(flow.refusalOf(log, { kind: 'undone' }) ?? [])).toContain('nothing to take back');
  });

  it('undoing a close opens the case again', () => {
    expect(flow.replay(logOf(opened, safe, closed, { kind: 'undone' })).moment.state).toBe('checking');
  });

  it.each<[string, CaseEvent]>([
    [
      'an unknown observation, with the nearest id',
      { kind: 'answered', observation: 'vapor-at-head', value: 'slight' },
    ],
    [
      'a value the observation does not have',
      { kind: 'answered', observation: 'vapour-at-head', value: 'a-lot' },
    ],
    ['a number out of range', { kind: 'condition-set', condition: 'nozzle-mm', value: 40 }],
    ['an unknown remedy', { kind: 'remedy-chosen', remedy: 'hope' }],
  ])('refuses %s', (_what, event) => {
    const refusal = flow.refusalOf(logOf(opened, safe), event);
    expect(refusal).not.toBeNull();
    if (event.kind === 'answered' && event.observation === 'vapor-at-head')
      expect(inEnglish(refusal ?? [])).toContain('"vapour-at-head"');
  });

  it('every state of the contract is reached by some sequence of events', () => {
    const danger = new Set(['smoke-or-burning-smell']);
    const machine = createCaseMachine(danger);
    const events: CaseEvent[] = [
      opened,
      safe,
      { kind: 'danger-answered', present: ['smoke-or-burning-smell'] },
      { kind: 'made-safe' },
      { kind: 'verdict-asked' },
      { kind: 'remedy-chosen', remedy: dry },
      { kind: 'remedy-done' },
      { kind: 'verified', outcome: 'cured' },
      closed,
      { kind: 'parked', note: '' },
      { kind: 'handed-over', note: '' },
    ];
    const paths = getShortestPaths(machine, {
      events: events.map(machineEvent),
      // The state name is what counts here: contexts grow without end.
      serializeState: (snapshot) => JSON.stringify('value' in snapshot ? snapshot.value : null),
    });
    const reached = new Set(
      paths.map(({ state: { value } }) => (typeof value === 'string' ? value : value.open)),
    );
    expect([...reached].sort()).toEqual(['intake', ...CASE_STATES].sort());
  });

  it('goes on with an old case whose words are gone from the guide: what has no place is named, the rest counts (A4)', () => {
    const gone = { observation: 'squeaking-noise', value: 'heavy' };
    const { moment, noPlaceFor } = flow.replay(
      logOf(
        {
          kind: 'opened',
          intake: {
            ...intake,
            complaints: [gone, ...intake.complaints],
            conditions: { polymer: 'unobtainium', 'nozzle-mm': 0.8 },
          },
        },
        safe,
        { kind: 'answered', ...gone },
        { kind: 'remedy-chosen', remedy: 'oil-the-squeak' },
        { kind: 'remedy-done' },
        { kind: 'answered', observation: 'vapour-at-head', value: 'slight' },
        { ...closed, causes: [{ cause: 'dry-bearing' }], practice: 'never-oiled' },
      ),
    );
    expect(noPlaceFor.map(({ seq }) => seq)).toEqual([1, 3, 4, 5, 7]);
    expect(moment.state).toBe('closed');
    expect(moment.context).toMatchObject({
      conditions: { 'nozzle-mm': 0.8 },
      findings: { 'popping-while-loading': 'slight', 'vapour-at-head': 'slight' },
      intake: { complaints: [gone, ...intake.complaints] },
      closing: { causes: [{ named: 'dry-bearing' }], practice: null },
    });
  });

  it('a danger sign that only an earlier guide knew still stops the case', () => {
    const log = logOf(opened, { kind: 'danger-answered', present: ['glowing-red'] });
    expect(flow.replay(log).moment.state).toBe('make-safe');
    const after = [...log, { seq: 3, at: '2026-03-02T12:00:00.000Z', event: { kind: 'made-safe' } as const }];
    expect(flow.refusalOf(after, { kind: 'remedy-chosen', remedy: dry })).not.toBeNull();
  });

  it('survives JSON: a log read back from text folds to the same case', () => {
    const log = logOf(opened, safe, { kind: 'answered', observation: 'vapour-at-head', value: 'slight' });
    const readBack = JSON.parse(JSON.stringify(log)) as LoggedEvent[];
    expect(flow.replay(readBack)).toEqual(flow.replay(log));
  });
});
