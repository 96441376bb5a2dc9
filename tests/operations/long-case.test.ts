import { describe, expect, it, vi } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { answer, counted, intake, note, safe } from './counted-program.ts';

// Counts are what is tested here; on a busy machine each of them may take a while.
vi.setConfig({ testTimeout: 240_000 });

describe('a long case', () => {
  it('is answered for its 1,000th event with the trips, statements and, within reason, the time of its third (attack 12, A9)', async () => {
    const { ask, look, statements, program } = await counted();
    const { caseId } = await ask('case:open', intake);
    const stepped = vi.spyOn(program.flow, 'step');
    const replayed = vi.spyOn(program.flow, 'replay');
    const send = async (revision: number, event: CaseEvent) => {
      look();
      statements();
      stepped.mockClear();
      replayed.mockClear();
      const began = performance.now();
      await ask('case:send', { caseId, revision, event });
      return {
        ms: performance.now() - began,
        counts: {
          ...look(),
          statements: statements(),
          stepped: stepped.mock.calls.length,
          replayed: replayed.mock.calls.length,
        },
      };
    };
    await send(1, safe);
    const sent: Awaited<ReturnType<typeof send>>[] = [];
    for (let revision = 2; revision < 999; revision++)
      sent.push(await send(revision, note(`note ${revision}`)));
    const [third, early, late] = [sent[0]?.counts, sent.slice(0, 10), sent.slice(-10)];
    expect(third).toMatchObject({
      trips: ['advance'],
      reasoned: 0,
      transactions: 1,
      stepped: 1,
      replayed: 0,
    });
    for (const { counts } of [...early, ...late]) expect(counts).toEqual(third);
    // The log grows in the casebook; what is kept beside it is of one revision only.
    expect(await program.casebook.db.selectFrom('case_steps').selectAll().execute()).toHaveLength(1);
    // It was 1.1 times as long when this was written, and grew with the square of the log before. Not in milliseconds.
    const shortest = (some: typeof sent) => Math.min(...some.map(({ ms }) => ms));
    expect(shortest(late) / shortest(early)).toBeLessThan(10);

    const last = await send(999, answer('vapour-at-head', 'slight'));
    expect(last.counts).toEqual({ ...third, reasoned: 1 });
    expect((await ask('case:view', { caseId })).revision).toBe(1000);
    await ask('case:timeline', { caseId });
    expect(look()).toMatchObject({ trips: [], reasoned: 0, transactions: 0 });
  });

  it('that came in as one line of an import is worked out once, in one trip, when it is first read (attack 12)', async () => {
    const from = await counted();
    const { caseId } = await from.ask('case:open', intake);
    const { jsonLines } = await from.ask('case:export', {});
    const line = JSON.parse(jsonLines) as { caseId: string; events: { at: string }[] };
    const [opened] = line.events;
    const notes = Array.from({ length: 4999 }, (_, i) => ({
      ...opened,
      seq: i + 2,
      event: note(`note ${i}`),
    }));
    const { ask, look } = await counted();
    const jsonLine = JSON.stringify({ ...line, events: [opened, ...notes] });
    expect(await ask('case:import', { jsonLines: jsonLine })).toMatchObject({ imported: 1, faults: [] });
    look();
    expect((await ask('case:view', { caseId })).revision).toBe(5000);
    expect(look()).toEqual({ trips: ['rebuild'], reasoned: 1, transactions: 1 });
    await ask('case:view', { caseId });
    expect(look()).toEqual({ trips: [], reasoned: 0, transactions: 0 });
  });
});
