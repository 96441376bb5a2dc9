import { describe, expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import type { CaseStep } from '../../src-core/session/case-step.ts';
import { LookAhead } from '../../src-main/reasoning/look-ahead.ts';
import { runTask, type TaskArguments, type TaskName } from '../../src-main/reasoning/tasks.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';
import { remedyOf } from '../session/small-remedy.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

const knowledge = smallGuide({
  observations: [
    observation('pops', 0.02, 1),
    observation('steam-seen', 0.02, 2, { complaint: false }),
    observation('smoke', 0.001, 1, { danger: true }),
  ],
  causes: [cause('wet', { pops: 0.9, 'steam-seen': 0.8 }), cause('burnt', { smoke: 0.7, pops: 0.2 })],
  remedies: [remedyOf('dry', { wet: 0.9 }), remedyOf('cut', { burnt: 0.9 })],
  machineStates: { preparation: {}, cooling: { value: 20, source: 'estimate' } },
});

const around = { costs: null, spool: null };
const safe: CaseEvent = { kind: 'danger-answered', present: [] };
const steam = (value: string): CaseEvent => ({ kind: 'answered', observation: 'steam-seen', value });
const opened = (words: string): CaseEvent => ({
  kind: 'opened',
  intake: {
    printerId: null,
    spoolId: null,
    openedBy: null,
    conditions: {},
    complaints: [{ observation: 'pops', value: 'present' }],
    words,
  },
});

/** A thread whose turns the test makes. */
function thread() {
  let due: (() => void) | null = null;
  let waitMs = 0;
  let rests = 0;
  let nowMs = 0;
  let pieceMs = 0;
  const turns = {
    // Each look at the clock is that much later: a piece of work begins with one and ends with one.
    nowMs: () => (nowMs += pieceMs),
    later: (work: () => void, afterMs: number) => {
      due = work;
      waitMs = afterMs;
      return () => (due = null);
    },
  };
  const ahead = new LookAhead(knowledge, turns, () => rests++);
  const run = <N extends TaskName>(name: N, ...args: TaskArguments<N>) => {
    ahead.begun();
    const isStill = due === null;
    const setting = { knowledge, onProgress: () => undefined, foreseen: ahead.foreseen };
    const result = runTask(setting, name, args);
    ahead.answered(name, args, result);
    ahead.ended();
    return { result, isStill };
  };
  return {
    ahead,
    run,
    rests: () => rests,
    /** From now on a piece of work takes that long. */
    takes: (ms: number) => (pieceMs = ms),
    /** How long the thread has to be idle before the next piece. */
    waitMs: () => waitMs,
    isWaiting: () => due !== null,
    /** One piece of work ahead. */
    turn: () => {
      const work = due;
      due = null;
      work?.();
    },
    send: (before: CaseStep | null, event: CaseEvent): CaseStep => {
      const logged = { seq: (before?.revision ?? 0) + 1, at: '2026-03-02T08:00:00.000Z', event };
      const { result } = run('advance', before, logged, around);
      if (!result.ok) throw new Error(inEnglish(result.reason));
      return result.step;
    },
  };
}

function rest({ isWaiting, turn }: ReturnType<typeof thread>): number {
  let turns = 0;
  for (; isWaiting(); turns++) turn();
  return turns;
}

/** A case whose question, "steam seen?", is on the screen. */
function asked(here: ReturnType<typeof thread>, words = 'it pops'): CaseStep {
  const step = here.send(here.send(null, opened(words)), safe);
  expect(step.reasoning.next).toMatchObject({ kind: 'check', id: 'steam-seen' });
  return step;
}

describe('thinking ahead', () => {
  it('makes the answer to the question that is shown a hit, one piece a turn, and tells when it is done', () => {
    const here = thread();
    const step = asked(here);
    expect(here.ahead.foreseen.counts).toEqual({ hits: 0, misses: 2, kept: 0 });
    // Yes, no, cannot tell, passed over.
    for (let kept = 1; kept <= 4; kept++) {
      expect(here.rests()).toBe(0);
      here.turn();
      expect(here.ahead.foreseen.counts.kept).toBe(kept);
    }
    expect([here.rests(), here.isWaiting()]).toEqual([1, false]);
    here.send(step, steam('present'));
    expect(here.ahead.foreseen.counts).toMatchObject({ hits: 1, misses: 2 });
    // What nobody foresaw is worked out when it is told.
    here.send(step, steam('probably'));
    expect(here.ahead.foreseen.counts).toMatchObject({ hits: 1, misses: 3 });
  });

  it('waits while anything is asked, and goes on after it, also where that failed', () => {
    const here = thread();
    const step = asked(here);
    here.turn();
    expect(here.run('rank', step.moment.context).isStill).toBe(true);
    expect(here.isWaiting()).toBe(true);
    here.ahead.begun();
    expect(here.isWaiting()).toBe(false);
    here.ahead.ended();
    expect(rest(here)).toBe(3);
    expect(here.ahead.foreseen.counts.kept).toBe(4);
  });

  it('is done after what a person told only: not where a case is read, ranked or worked out anew', () => {
    const here = thread();
    const event = opened('it pops');
    here.run('rebuild', [{ seq: 1, at: '2026-03-02T08:00:00.000Z', event }], around);
    expect(here.isWaiting()).toBe(false);
    const refused = here.run('advance', null, { seq: 1, at: '', event: safe }, around);
    expect([refused.result.ok, here.isWaiting()]).toEqual([false, false]);
  });

  it('drops a case that has gone on, and goes on with the others', () => {
    const here = thread();
    const first = asked(here, 'it pops');
    const other = asked(here, 'it hisses');
    here.turn();
    here.send(other, { kind: 'parked', note: '' });
    expect(rest(here)).toBe(4);
    const { kept } = here.ahead.foreseen.counts;
    here.send(first, steam('absent'));
    expect([kept, here.ahead.foreseen.counts.hits]).toEqual([5, 1]);
  });

  it('thinks of the six cases answered last at most', () => {
    const here = thread();
    for (let index = 0; index < 9; index++) {
      asked(here, `case ${index}`);
    }
    expect(rest(here)).toBe(6 * 4);
  });

  it('leaves the thread to others for as long as the last piece took, and for a moment at least', () => {
    const here = thread();
    const step = asked(here);
    expect(here.waitMs()).toBe(30);
    here.takes(70);
    here.turn();
    expect(here.waitMs()).toBe(70);
    here.takes(190);
    here.turn();
    expect(here.waitMs()).toBe(190);
    // Also where something came in meanwhile.
    here.run('rank', step.moment.context);
    expect(here.waitMs()).toBe(190);
    here.takes(1);
    here.turn();
    expect(here.waitMs()).toBe(30);
  });

  it('outlives what cannot be thought', () => {
    const here = thread();
    const step = asked(here);
    rest(here);
    // A moment that no event fits: what comes of it is said when somebody asks.
    const odd = { ...step, moment: { ...step.moment, context: { ...step.moment.context, findings: null } } };
    here.ahead.answered('advance', [null, null, around], { ok: true, step: odd });
    here.ahead.ended();
    rest(here);
    expect(here.rests()).toBeGreaterThan(1);
  });
});
