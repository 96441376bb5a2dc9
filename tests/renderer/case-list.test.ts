import { describe, expect, it } from 'vitest';
import type { CaseFilterInput, CaseRow } from '../../src-core/contract/casebook-view.ts';
import { NO_FILTER, printedWords } from '../../src-renderer/screens/casebook/case-filter.ts';
import { CaseList, MOST_PRINTED } from '../../src-renderer/screens/casebook/case-list.svelte.ts';
import { rankingAt } from '../../src-renderer/screens/casebook/timeline-replay.svelte.ts';
import { scriptedHost } from './scripted-host.ts';

const now = () => new Date(2026, 10, 25);

function rows(from: number, count: number): CaseRow[] {
  return Array.from({ length: Math.max(0, count) }, (_, i) => ({
    caseId: `case-${from + i}`,
    number: from + i,
    state: 'closed',
    mergedInto: null,
    revision: 2,
    openedAt: '2026-11-01T10:00:00.000Z',
    closedAt: null,
    printerLabel: null,
    spoolLabel: null,
    profile: null,
    tags: [],
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
  return {
    ok: true,
    value: {
      total,
      isMore: false,
      byState: { closed: total },
      rows: rows(offset, Math.min(limit, total - offset)),
    },
  };
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

describe('a print of the casebook', () => {
  it('holds all cases of the filter, and leaves the page on the screen as it is', async () => {
    const { host, asked } = scriptedHost(({ input }) => answerOf(450, input));
    const list = new CaseList(host, now);
    await list.change({ standing: 'closed', page: 2 });
    asked.length = 0;
    expect(await list.gatherForPrint()).toBe(true);
    expect(list.printed?.rows.map(({ number }) => number)).toEqual(Array.from({ length: 450 }, (_, i) => i));
    expect(asked.every(({ input }) => (input as CaseFilterInput).states?.join() === 'closed')).toBe(true);
    expect(list.rows?.map(({ number }) => number)).toEqual(Array.from({ length: 50 }, (_, i) => 50 + i));
    expect(list.filter.page).toBe(2);
  });

  it('stops at two thousand and says so', async () => {
    const { host, asked } = scriptedHost(({ input }) => answerOf(2412, input));
    const list = new CaseList(host, now);
    await list.gatherForPrint();
    expect(MOST_PRINTED).toBe(2000);
    expect(list.printed?.rows).toHaveLength(2000);
    expect(asked).toHaveLength(10);
    expect(printedWords(2000, list.printed?.total ?? 0, NO_FILTER)).toMatch(/^The first 2000 of 2412 cases;/);
    expect(printedWords(134, 134, { ...NO_FILTER, standing: 'closed' })).toBe(
      '134 cases that fit the filter',
    );
    expect(printedWords(1, 1, NO_FILTER)).toBe('1 case');
  });

  it('holds each case once when one is opened between two pages', async () => {
    const { host } = scriptedHost(({ input }) => {
      const { offset = 0 } = input as CaseFilterInput;
      return {
        ok: true,
        value: { total: 301, byState: {}, rows: offset === 0 ? rows(0, 200) : rows(199, 101) },
      };
    });
    const list = new CaseList(host, now);
    await list.gatherForPrint();
    expect(list.printed?.rows.map(({ number }) => number)).toEqual(Array.from({ length: 300 }, (_, i) => i));
  });

  it('prints nothing when a page does not come, and says why', async () => {
    const { host } = scriptedHost(({ input }) =>
      (input as CaseFilterInput).offset === 200
        ? { ok: false, error: { code: 'internal', message: 'down' } }
        : answerOf(450, input),
    );
    const list = new CaseList(host, now);
    expect(await list.gatherForPrint()).toBe(false);
    expect(list.printed).toBeNull();
    expect(list.failure?.message).toBe('down');
    expect(list.isGathering).toBe(false);
  });

  it('prints nothing of a filter that was changed meanwhile', async () => {
    const waiting: (() => void)[] = [];
    const { host } = scriptedHost(({ input }) => {
      const answer = answerOf(3, input);
      const isOfPrint = (input as CaseFilterInput).limit === 200;
      return isOfPrint ? new Promise((resolve) => waiting.push(() => resolve(answer))) : answer;
    });
    const list = new CaseList(host, now);
    const printing = list.gatherForPrint();
    await list.change({ standing: 'closed' });
    for (const release of waiting) release();
    expect(await printing).toBe(false);
    expect(list.printed).toBeNull();
  });
});

describe('a replayed case', () => {
  const step = (seq: number, candidates: [string, number][]) => ({
    seq,
    at: '2026-11-01T10:00:00.000Z',
    kind: 'answered',
    text: '',
    isUndone: false,
    by: null,
    photo: null,
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
