import path from 'node:path';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { reasonerInWorkers } from '../../src-main/reasoning/worker-reasoner.ts';
import { restsOf } from '../reasoning/rests.ts';
import { answer, counted, intake, note, safe } from './counted-program.ts';

// Counts are what is tested here; on a busy machine each of them may take a while.
vi.setConfig({ testTimeout: 240_000 });

/** A complaint that is asked about: with a remedy at hand there is no answer to have ready. */
const asked = { conditions: {}, complaints: [{ observation: 'nothing-comes-out', value: 'present' }] };

describe('a long case', () => {
  it('is answered for its 1,000th event with the trips, the statements and the step of its third (attack 12, A9)', async () => {
    const { ask, look, statements, program } = await counted();
    const { caseId } = await ask('case:open', intake);
    const stepped = vi.spyOn(program.flow, 'step');
    const replayed = vi.spyOn(program.flow, 'replay');
    const send = async (revision: number, event: CaseEvent) => {
      look();
      statements();
      stepped.mockClear();
      replayed.mockClear();
      await ask('case:send', { caseId, revision, event });
      return {
        ...look(),
        statements: statements(),
        stepped: stepped.mock.calls.length,
        replayed: replayed.mock.calls.length,
      };
    };
    await send(1, safe);
    const sent: Awaited<ReturnType<typeof send>>[] = [];
    sent.push(await send(2, note('note 2')));
    const kept = await program.casebook.db.selectFrom('case_steps').selectAll().executeTakeFirstOrThrow();
    const lengthAtThird = kept.step_deflated.length;
    for (let revision = 3; revision < 999; revision++)
      sent.push(await send(revision, note(`note ${revision}`)));
    const [third, early, late] = [sent[0], sent.slice(0, 10), sent.slice(-10)];
    expect(third).toMatchObject({
      trips: ['advance'],
      reasoned: 0,
      transactions: 1,
      stepped: 1,
      replayed: 0,
    });
    expect(third?.statements).toBeGreaterThan(3);
    for (const counts of [...early, ...late]) expect(counts).toEqual(third);
    // The log grows in the casebook; what is kept beside it is of one revision only, and no longer than at the third.
    const steps = await program.casebook.db.selectFrom('case_steps').selectAll().execute();
    expect(steps).toHaveLength(1);
    expect(steps[0]?.step_deflated.length).toBeLessThan(1.1 * lengthAtThird);

    const last = await send(999, answer('vapour-at-head', 'slight'));
    expect(last).toEqual({ ...third, reasoned: 1 });
    expect((await ask('case:view', { caseId })).revision).toBe(1000);
    await ask('case:timeline', { caseId });
    expect(look()).toMatchObject({ trips: [], reasoned: 0, transactions: 0 });
  });

  it('has the answer to its 1,000th event ready, where a thread stood idle: one trip, nothing reasoned', async () => {
    const from = await counted();
    const opened = await from.ask('case:open', asked);
    const { revision } = await from.ask('case:send', { caseId: opened.caseId, revision: 1, event: safe });
    const { jsonLines } = await from.ask('case:export', {});
    const line = JSON.parse(jsonLines) as { events: { at: string }[] };
    const [first] = line.events;
    const notes = Array.from({ length: 998 - revision }, (_, i) => ({
      ...first,
      seq: revision + 1 + i,
      event: note(`note ${i}`),
    }));

    const resting = restingThread();
    const { ask, look } = await counted({ around: () => resting.reasoner });
    await ask('case:import', { jsonLines: JSON.stringify({ ...line, events: [...line.events, ...notes] }) });
    const { caseId } = opened;
    expect((await ask('case:view', { caseId })).revision).toBe(998);
    const rested = resting.once(({ kept }) => kept > 0);
    const view = await ask('case:send', { caseId, revision: 998, event: note('now I look') });
    expect(view.question).not.toBeNull();
    const before = await rested;
    expect(before.kept).toBeGreaterThan(2);
    look();
    const [value] = view.question?.answers ?? [];
    const after = resting.once(({ hits, misses }) => hits + misses > before.hits + before.misses);
    const event = answer(view.question?.observation ?? '', value?.value ?? '');
    expect((await ask('case:send', { caseId, revision: 999, event })).revision).toBe(1000);
    expect(look()).toEqual({ trips: ['advance'], reasoned: 0, transactions: 1 });
    expect(await after).toMatchObject({ hits: before.hits + 1, misses: before.misses });
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

/** A reasoning thread, and word of when it has nothing more to do, also ahead. */
function restingThread() {
  const rests = restsOf();
  const root = path.join(import.meta.dirname, '..', '..');
  const reasoner = reasonerInWorkers(
    path.join(root, 'src-main', 'reasoning', 'worker.ts'),
    { folder: root, programVersion: programVersion(root) },
    { onRested: rests.tell },
  );
  onTestFinished(() => reasoner.close());
  return { reasoner, once: rests.once };
}
