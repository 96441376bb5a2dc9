import { describe, expect, it } from 'vitest';
import type { CaseFilterInput, CaseRow } from '../../src-core/contract/casebook-view.ts';
import { CaseList } from '../../src-renderer/screens/casebook/case-list.svelte.ts';
import { rankingAt } from '../../src-renderer/screens/casebook/timeline-replay.svelte.ts';
import { scriptedHost } from './scripted-host.ts';

const now = () => new Date(2026, 10, 25);

function rows(from: number, count: number): CaseRow[] {
  return Array.from({ length: Math.max(0, count) }, (_, i) => ({
    caseId: `case-${from + i}`,
    number: from + i,
    state: 'closed',
    openedAt: '2026-11-01T10:00:00.000Z',
    closedAt: null,
    printerLabel: null,
    spoolLabel: null,
    openedBy: null,
    complaint: 'Stringing',
    causeLabel: 'Wet filament',
    isConfirmed: true,
    minutesLost: 0,
    gramsScrapped: 0,
    isDemo: false,
  }));
}

/** Answers like a casebook with `total` cases. */
function answerOf(total: number, input: unknown) {
  const { offset = 0, limit = 50 } = input as CaseFilterInput;
  return { ok: true, value: { total, rows: rows(offset, Math.min(limit, total - offset)) } };
}

describe('the casebook’s list', () => {
  it('shows only the newest answer when several are under way', async () => {
    const waiting: (() => void)[] = [];
    const { host } = scriptedHost(({ input }) => {
      const { search } = input as CaseFilterInput;
      const answer = answerOf(search === 'slow' ? 1 : 2, input);
      return search === 'slow' ? new Promise((resolve) => waiting.push(() => resolve(answer))) : answer;
    });
    const list = new CaseList(host, now);
    const slow = list.change({ search: 'slow' });
    await list.change({ search: 'quick' });
    for (const release of waiting) release();
    await slow;
    expect(list.total).toBe(2);
    expect(list.filter.search).toBe('quick');
  });

  it('goes back to the first page when the filter changes', async () => {
    const { host } = scriptedHost(({ input }) => answerOf(134, input));
    const list = new CaseList(host, now);
    await list.change({ page: 3 });
    expect(list.rows).toHaveLength(34);
    await list.change({ standing: 'closed' });
    expect(list.filter.page).toBe(1);
  });

  it('goes to the last page when an address names one beyond the end', async () => {
    const { host } = scriptedHost(({ input }) => answerOf(60, input));
    const list = new CaseList(host, now);
    await list.change({ page: 9 });
    expect(list.filter.page).toBe(2);
    expect(list.rows).toHaveLength(10);
  });

  it('keeps the rows it has when a reading fails', async () => {
    let isDown = false;
    const { host } = scriptedHost(({ input }) =>
      isDown ? { ok: false, error: { code: 'internal', message: 'down' } } : answerOf(3, input),
    );
    const list = new CaseList(host, now);
    await list.read();
    isDown = true;
    await list.read();
    expect(list.failure?.message).toBe('down');
    expect(list.rows).toHaveLength(3);
  });

  it('collects the ids of all pages for an export', async () => {
    const { host } = scriptedHost(({ input }) => answerOf(450, input));
    const ids = await new CaseList(host, now).idsOfFiltered();
    expect(ids).toHaveLength(450);
    expect(new Set(ids as readonly string[]).size).toBe(450);
  });
});

describe('a replayed case', () => {
  const step = (seq: number, candidates: [string, number][]) => ({
    seq,
    at: '2026-11-01T10:00:00.000Z',
    kind: 'answered',
    text: '',
    isUndone: false,
    candidates: candidates.map(([cause, probability]) => ({ cause, label: cause, probability })),
  });

  it('tells what each cause had a step before, where it was listed', () => {
    const steps = [
      step(1, [
        ['a', 0.6],
        ['b', 0.2],
      ]),
      step(2, [
        ['b', 0.5],
        ['c', 0.3],
      ]),
    ];
    expect(rankingAt(steps, 1).map((one) => [one.cause, one.before])).toEqual([
      ['b', 0.2],
      ['c', null],
    ]);
    expect(rankingAt(steps, 0).every((one) => one.before === null)).toBe(true);
  });
});
