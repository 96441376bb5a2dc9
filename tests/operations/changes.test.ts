import { describe, expect, it, vi } from 'vitest';
import type { Change } from '../../src-core/contract/change.ts';
import { ChangeFeed } from '../../src-main/operations/change-feed.ts';
import { SharedAnswer } from '../../src-main/operations/shared-answer.ts';
import { programInMemory } from './program-in-memory.ts';

const complaints = [{ observation: 'stringing', value: 'slight' }];
const heron = { label: 'Heron', conditions: {}, printHours: 12_000 };

async function followed() {
  const test = await programInMemory();
  const heard: Change[] = [];
  const turnAway = test.program.changes.follow((change) => heard.push(change));
  return { ...test, heard, turnAway };
}

describe('what is written is told', () => {
  it('a case with its id and revision, once it is on disk; a printer to the shop and the bench', async () => {
    const { ask, program, heard } = await followed();
    let foundAtOnce: Promise<unknown> = Promise.resolve();
    program.changes.follow(({ caseId }) => {
      if (caseId !== null && foundAtOnce) foundAtOnce = ask('case:view', { caseId });
    });
    const { caseId } = await ask('case:open', { complaints });
    expect(heard).toEqual([{ topics: ['case', 'bench', 'inbox'], caseId, revision: 1 }]);
    expect(await foundAtOnce).toMatchObject({ caseId, revision: 1 });
    await ask('case:send', { caseId, revision: 1, event: { kind: 'noted', text: 'damp' } });
    expect(heard.at(-1)).toEqual({ topics: ['case', 'bench', 'inbox'], caseId, revision: 2 });
    await ask('shop:save-printer', heron);
    expect(heard.at(-1)).toEqual({ topics: ['shop', 'bench', 'inbox'], caseId: null, revision: null });
    expect(heard).toHaveLength(3);
  });

  it('not what was only read, refused, or overtaken', async () => {
    const { ask, dispatcher, heard } = await followed();
    const { caseId } = await ask('case:open', { complaints });
    heard.length = 0;
    await ask('case:view', { caseId });
    await ask('bench:read', {});
    const stale = await dispatcher.call('case:send', {
      caseId,
      revision: 7,
      event: { kind: 'noted', text: 'late' },
    });
    expect(stale).toMatchObject({ ok: false, error: { code: 'stale' } });
    await dispatcher.dispatch('shop:save-printer', { label: '' });
    expect(heard).toEqual([]);
  });

  it('to everybody else although one listener fails, and to nobody who has turned away', async () => {
    const { ask, program, heard, turnAway } = await followed();
    program.changes.follow(() => {
      throw new Error('gone');
    });
    const others: Change[] = [];
    program.changes.follow((change) => others.push(change));
    await ask('shop:save-printer', heron);
    turnAway();
    await ask('shop:save-person', { initials: 'RK', role: 'lead' });
    expect([heard.length, others.length]).toEqual([1, 2]);
  });
});

describe('the board of the shop', () => {
  it('is worked out once for all who ask until something of it changes, and then has what was written', async () => {
    const { ask, program } = await followed();
    const { caseId } = await ask('case:open', { complaints });
    const read = vi.spyOn(program.flow, 'replay');
    const boards = await Promise.all(Array.from({ length: 50 }, () => ask('bench:read', {})));
    expect(boards.every(({ openCases }) => openCases.length === 1)).toBe(true);
    expect(read).toHaveBeenCalledTimes(1);
    await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
    await ask('case:send', { caseId, revision: 2, event: { kind: 'parked', note: 'end of shift' } });
    expect((await ask('bench:read', {})).openCases).toMatchObject([
      { state: 'parked', reason: 'end of shift' },
    ]);
    const replays = read.mock.calls.length;
    await ask('bench:read', {});
    expect(read.mock.calls.length).toBe(replays);
  });

  it('a reading that was under way when something changed is not kept', async () => {
    const changes = new ChangeFeed();
    const shared = new SharedAnswer<string>(changes, 'bench');
    let finish: (text: string) => void = () => undefined;
    const slow = shared.get(() => new Promise((resolve) => (finish = resolve)));
    changes.raise({ topics: ['bench'], caseId: null, revision: null });
    const later = shared.get(() => Promise.resolve('new'));
    finish('old');
    expect([await slow, await later]).toEqual(['old', 'new']);
    expect(await shared.get(() => Promise.resolve('not asked'))).toBe('new');
    changes.raise({ topics: ['bench'], caseId: null, revision: null });
    await expect(shared.get(() => Promise.reject(new Error('full')))).rejects.toThrow('full');
    expect(await shared.get(() => Promise.resolve('again'))).toBe('again');
  });
});
