import { describe, expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { runningTimer } from '../../src-core/session/running-timer.ts';

const logOf = (...events: CaseEvent[]) =>
  events.map((event, index) => ({
    seq: index + 1,
    at: new Date(Date.UTC(2026, 10, 27, 22, 30 + index)).toISOString(),
    event,
  }));
const set: CaseEvent = { kind: 'timer-set', minutes: 240 };

describe('the wait of a case', () => {
  it('is over so long after the entry, over midnight, whatever is noted or ticked meanwhile', () => {
    const until = { since: '2026-11-27T22:30:00.000Z', until: '2026-11-28T02:30:00.000Z' };
    expect(runningTimer(logOf(set))).toEqual(until);
    expect(
      runningTimer(
        logOf(set, { kind: 'step-ticked', step: 1, isDone: true }, { kind: 'noted', text: 'dryer hums' }),
      ),
    ).toEqual(until);
    expect(runningTimer(logOf(set, { kind: 'parked', note: 'till tomorrow' }))).toEqual(until);
  });

  it('is the last one set, and what was undone does not count', () => {
    const shorter: CaseEvent = { kind: 'timer-set', minutes: 10 };
    expect(runningTimer(logOf(set, shorter))?.until).toBe('2026-11-27T22:41:00.000Z');
    expect(runningTimer(logOf(set, shorter, { kind: 'undone' }))?.until).toBe('2026-11-28T02:30:00.000Z');
  });

  it.each<CaseEvent>([
    { kind: 'timer-stopped' },
    { kind: 'remedy-done' },
    { kind: 'remedy-left' },
    { kind: 'could-not-be-done', reason: 'no-time', note: '' },
    { kind: 'remedy-chosen', remedy: 'dry-the-spool' },
  ])('ends with $kind', (event) => {
    expect(runningTimer(logOf(set, event))).toBeNull();
  });
});
