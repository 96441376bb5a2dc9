import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { createCaseFlow } from '../../src-core/session/case-flow.ts';
import {
  eventsInForce,
  hasUndoable,
  undoneSeqs,
  type LoggedEvent,
} from '../../src-core/session/logged-event.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';
import { remedyOf } from './small-remedy.ts';

const guide = smallGuide({
  observations: [
    observation('pops', 0.02, 1),
    observation('steam-seen', 0.02, 2, { complaint: false }),
    observation('smoke', 0.001, 1, { danger: true }),
  ],
  causes: [cause('wet', { pops: 0.9, 'steam-seen': 0.8 }), cause('burnt', { smoke: 0.7, pops: 0.2 })],
  remedies: [
    remedyOf(
      'dry',
      { wet: 0.9 },
      {
        steps: [
          { do: 'A.', cautions: [] },
          { do: 'B.', cautions: [] },
        ],
      },
    ),
  ],
  machineStates: { preparation: {}, cooling: { value: 20, source: 'estimate' } },
});
const flow = createCaseFlow(guide);

const opened: CaseEvent = {
  kind: 'opened',
  intake: {
    printerId: null,
    spoolId: null,
    openedBy: null,
    conditions: {},
    complaints: [{ observation: 'pops', value: 'present' }],
    words: '',
  },
};
const undone: CaseEvent = { kind: 'undone' };
const noted: CaseEvent = { kind: 'noted', text: 'As it is.' };
/** What may happen to a case; which of it fits where is the flow's to say. */
const EVENTS: readonly CaseEvent[] = [
  { kind: 'danger-answered', present: [] },
  { kind: 'danger-answered', present: ['smoke'] },
  { kind: 'made-safe' },
  { kind: 'taken-over', by: 'QE' },
  { kind: 'answered', observation: 'steam-seen', value: 'present' },
  { kind: 'answered', observation: 'steam-seen', value: 'absent' },
  { kind: 'could-not-tell', observation: 'steam-seen' },
  { kind: 'skipped', observation: 'steam-seen' },
  { kind: 'verdict-asked' },
  { kind: 'checking-resumed' },
  { kind: 'remedy-chosen', remedy: 'dry' },
  { kind: 'step-ticked', step: 0, isDone: true },
  { kind: 'step-ticked', step: 1, isDone: true },
  { kind: 'remedy-done' },
  { kind: 'remedy-left' },
  { kind: 'could-not-be-done', reason: 'no-tool', note: '' },
  { kind: 'verified', outcome: 'cured' },
  { kind: 'verified', outcome: 'not-cured' },
  { kind: 'parked', note: '' },
  { kind: 'resumed', to: 'where-it-was' },
  noted,
];
const some = fc.array(fc.constantFrom(...EVENTS), { maxLength: 14 });

const logOf = (events: readonly CaseEvent[]): LoggedEvent[] =>
  events.map((event, i) => ({ seq: i + 1, at: '2026-03-02T12:00:00.000Z', event }));

/** A case in which each event fitted when it happened. */
function played(events: readonly CaseEvent[]): CaseEvent[] {
  const kept: CaseEvent[] = [opened];
  for (const event of events)
    if (flow.replay(logOf([...kept, event])).noPlaceFor.length === 0) kept.push(event);
  return kept;
}
const momentOf = (events: readonly CaseEvent[]) => {
  const { moment } = flow.replay(logOf(events));
  return { state: moment.state, context: moment.context };
};

describe('an undo', () => {
  it('brings the case back to where it was before the last entry, whatever that was', () =>
    fc.assert(
      fc.property(some, fc.constantFrom(...EVENTS.filter(({ kind }) => kind !== 'noted')), (events, last) => {
        const before = played(events);
        const after = played([...events, last]);
        fc.pre(after.length > before.length);
        expect(momentOf([...after, undone])).toEqual(momentOf(before));
      }),
      { numRuns: 150, seed: 11 },
    ));

  it('and another go back further; at the opening they stop, and nothing is lost by asking again', () =>
    fc.assert(
      fc.property(some, (events) => {
        const all = played(events);
        const taken = all.filter(({ kind }) => kind !== 'noted' && kind !== 'opened').length;
        const undos = Array.from({ length: taken }, () => undone);
        expect(momentOf([...all, ...undos])).toEqual(momentOf([opened]));
        expect(hasUndoable(logOf([...all, ...undos]))).toBe(false);
        expect(momentOf([...all, ...undos, undone, undone])).toEqual(momentOf([opened]));
        // What happens then is there to be taken back again.
        const next: CaseEvent = { kind: 'danger-answered', present: [] };
        expect(momentOf([...all, ...undos, undone, next])).toEqual(momentOf([opened, next]));
      }),
      { numRuns: 100, seed: 12 },
    ));

  it('never takes a note or the opening back, and what it takes is marked once', () =>
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.constantFrom(...EVENTS), fc.constant(undone)), { maxLength: 20 }),
        (events) => {
          const log = logOf([opened, ...events]);
          const gone = undoneSeqs(log);
          const inForce = eventsInForce(log);
          for (const { seq, event } of log) {
            const isStanding = event.kind === 'noted' || event.kind === 'opened';
            if (isStanding) expect(gone.has(seq)).toBe(false);
            expect(inForce.some((one) => one.seq === seq)).toBe(event.kind !== 'undone' && !gone.has(seq));
          }
          expect(gone.size).toBeLessThanOrEqual(events.filter(({ kind }) => kind === 'undone').length);
          // There is something to undo just where one more undo changes what is in force.
          const again = eventsInForce(logOf([opened, ...events, undone]));
          expect(again.length < inForce.length).toBe(hasUndoable(log));
        },
      ),
      { numRuns: 200, seed: 13 },
    ));
});

describe('a case', () => {
  it('is its log: replayed from any moment on, it comes out the same', () =>
    fc.assert(
      fc.property(some, fc.nat(), (events, cut) => {
        const log = logOf(played(events));
        const at = cut % log.length;
        const half = flow.replay(log.slice(0, at)).moment;
        const { moment } = flow.replay(log.slice(at), half);
        const whole = flow.replay(log).moment;
        expect({ state: moment.state, context: moment.context }).toEqual({
          state: whole.state,
          context: whole.context,
        });
      }),
      { numRuns: 100, seed: 14 },
    ));

  it('asks no more of what was passed over once it is answered', () => {
    const observation = 'steam-seen';
    const passedOver: CaseEvent[] = [
      { kind: 'danger-answered', present: [] },
      { kind: 'skipped', observation },
      { kind: 'could-not-tell', observation },
    ];
    const { context } = momentOf([opened, ...passedOver]);
    expect([context.skipped, context.notTellable]).toEqual([[observation], [observation]]);
    const answered = momentOf([opened, ...passedOver, { kind: 'answered', observation, value: 'absent' }]);
    expect([answered.context.skipped, answered.context.notTellable]).toEqual([[], []]);
  });

  it('holds the last answer only', () =>
    fc.assert(
      fc.property(some, (events) => {
        const all = played(events);
        const { context } = momentOf(all);
        const said = all.flatMap((event) => (event.kind === 'answered' ? [event] : []));
        const last = said.at(-1);
        if (!last) return;
        expect(context.findings[last.observation]).toBe(last.value);
      }),
      { numRuns: 100, seed: 15 },
    ));
});
