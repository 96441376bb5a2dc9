import path from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { createCaseFlow } from '../../src-core/session/case-flow.ts';
import { readGuide } from '../../src-main/casebook/guide.repository.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { answer, counted, intake, note, safe } from './counted-program.ts';
import { saveCosts, type TestProgram } from './program-in-memory.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

// Counts are what is tested here; on a busy machine each of them may take a while.
vi.setConfig({ testTimeout: 240_000 });

async function sendAll({ ask }: Pick<TestProgram, 'ask'>, caseId: string, ...events: CaseEvent[]) {
  let view = await ask('case:view', { caseId });
  for (const event of events) view = await ask('case:send', { caseId, revision: view.revision, event });
  return view;
}

describe('one answer', () => {
  it('is one trip to the reasoning thread and one transaction, and reads make neither (A9)', async () => {
    const running = await counted();
    const { ask, look } = running;
    const { caseId } = await ask('case:open', intake);
    expect(look()).toEqual({ trips: ['advance'], reasoned: 1, transactions: 1 });
    await sendAll(running, caseId, safe);
    expect(look()).toEqual({ trips: ['advance'], reasoned: 1, transactions: 1 });
    await sendAll(running, caseId, answer('vapour-at-head', 'slight'));
    expect(look()).toEqual({ trips: ['advance'], reasoned: 1, transactions: 1 });
    await ask('case:view', { caseId });
    const { steps } = await ask('case:timeline', { caseId });
    expect(steps.map(({ candidates }) => candidates.length > 0)).toEqual([true, true, true]);
    expect(look()).toEqual({ trips: [], reasoned: 0, transactions: 0 });
  });

  it('reasons nothing where it tells nothing new: notes, ticks, parking, coming back', async () => {
    const running = await counted();
    const { caseId } = await running.ask('case:open', intake);
    const view = await sendAll(running, caseId, safe, { kind: 'verdict-asked' });
    const [offer] = view.remedies;
    running.look();
    await sendAll(
      running,
      caseId,
      note('looks wet'),
      { kind: 'remedy-chosen', remedy: offer?.id ?? '' },
      { kind: 'step-ticked', step: 0, isDone: true },
      { kind: 'remedy-done' },
      { kind: 'parked', note: 'overnight' },
      { kind: 'resumed' },
    );
    const { trips, reasoned } = running.look();
    expect([new Set(trips), trips.length, reasoned]).toEqual([new Set(['advance']), 6, 0]);
  });

  it('says what moved: the probabilities before what is known last changed', async () => {
    const running = await counted();
    const { caseId, candidates } = await running.ask('case:open', intake);
    const before = await sendAll(running, caseId, safe);
    const after = await sendAll(running, caseId, answer('vapour-at-head', 'heavy'), note('hissing'));
    expect(candidates.every((one) => one.previousProbability === null)).toBe(true);
    for (const { cause, probability } of before.candidates.slice(0, 5)) {
      const now = after.candidates.find((one) => one.cause === cause);
      if (now) expect(now.previousProbability).toBe(probability);
    }
    expect(after.candidates.some((one) => one.previousProbability !== null)).toBe(true);
  });
});

describe('an undo', () => {
  it('is worked out from the log, and gives what was there before', async () => {
    const running = await counted();
    const { caseId } = await running.ask('case:open', intake);
    const before = await sendAll(running, caseId, safe, answer('bubbly-free-air-extrusion', 'slight'));
    await sendAll(running, caseId, answer('vapour-at-head', 'heavy'));
    running.look();
    const after = await sendAll(running, caseId, { kind: 'undone' });
    expect(running.look().trips).toEqual(['rebuild']);
    expect(after.candidates).toEqual(before.candidates);
    expect([after.state, after.question, after.remedies]).toEqual([
      before.state,
      before.question,
      before.remedies,
    ]);
    const again = await sendAll(running, caseId, { kind: 'undone' }, { kind: 'undone' });
    expect(again.canUndo).toBe(false);
    await expect(sendAll(running, caseId, { kind: 'undone' })).rejects.toThrow('nothing to take back');
  });
});

describe('a step made under something else', () => {
  it('is worked out again once, when it is read, and kept: another engine, other costs', async () => {
    const file = path.join(temporaryFolder(), 'casebook.sqlite');
    const first = await counted({ file, engineVersion: 'one' });
    const { caseId } = await first.ask('case:open', intake);
    const asWas = await sendAll(first, caseId, safe, answer('vapour-at-head', 'slight'));
    await first.program.casebook.close();

    const second = await counted({ file, engineVersion: 'two' });
    const now = await second.ask('case:view', { caseId });
    expect(second.look()).toMatchObject({ trips: ['rebuild'], transactions: 1 });
    expect({ ...now, engineVersion: 'one', suggestedClosing: null }).toEqual({
      ...asWas,
      suggestedClosing: null,
    });
    await second.ask('case:view', { caseId });
    expect(second.look().trips).toEqual([]);
    const timeline = await second.ask('case:timeline', { caseId });
    expect([second.look().trips, timeline.isSameKnowledge]).toEqual([['rankings'], false]);
    await second.ask('case:timeline', { caseId });
    expect(second.look().trips).toEqual([]);

    await saveCosts(second.ask, {
      costs: { currency: 'EUR', workPerHour: 60, standstillPerHour: 10, parts: {}, isCounted: true },
    });
    const priced = await second.ask('case:view', { caseId });
    expect(second.look().trips).toEqual(['rebuild']);
    expect(priced.money?.currency).toBe('EUR');
    await second.ask('case:view', { caseId });
    expect(second.look().trips).toEqual([]);
  });

  it('shows the case all the same where the casebook takes no writing', async () => {
    const running = await counted();
    const { caseId } = await running.ask('case:open', intake);
    await running.program.casebook.db.deleteFrom('case_steps').execute();
    vi.spyOn(running.program.casebook.db, 'transaction').mockImplementation(() => {
      throw new Error('attempt to write a readonly database');
    });
    expect((await running.ask('case:view', { caseId })).revision).toBe(1);
  });
});

describe('what every event names', () => {
  it('is the guide and the engine it was made under; the guide is kept, once', async () => {
    const knowledge = shippedKnowledge();
    let asked = 0;
    const guideFiles = () => {
      asked++;
      return [{ topic: 'A guide' }] as never;
    };
    const running = await counted({ engineVersion: 'one', guideFiles });
    const { caseId } = await running.ask('case:open', intake);
    await sendAll(running, caseId, safe, note('seen'));
    const { db } = running.program.casebook;
    const rows = await db.selectFrom('case_events').select(['knowledge_version', 'engine_version']).execute();
    expect(rows).toEqual(
      Array.from({ length: 3 }, () => ({ knowledge_version: knowledge.version, engine_version: 'one' })),
    );
    expect([asked, await readGuide(db, knowledge.version)]).toEqual([1, [{ topic: 'A guide' }]]);
    expect(await readGuide(db, 'another')).toBeNull();
  });
});

describe('an old case under a guide that lost its words (A4)', () => {
  it('opens, goes on, and shows what cannot be said any more as such', async () => {
    const file = path.join(temporaryFolder(), 'casebook.sqlite');
    const first = await counted({ file });
    const { caseId } = await first.ask('case:open', {
      ...intake,
      complaints: [...intake.complaints, { observation: 'vapour-at-head', value: 'slight' }],
    });
    await sendAll(first, caseId, safe, answer('bubbly-free-air-extrusion', 'slight'));
    await first.program.casebook.close();

    const second = await counted({ file, knowledge: without(shippedKnowledge(), 'vapour-at-head') });
    const view = await second.ask('case:view', { caseId });
    expect(view.complaints.map(({ label }) => label)).toContain('vapour-at-head');
    expect(inEnglish(view.trail[0]?.noPlace ?? [])).toContain('vapour-at-head');
    expect(view.trail.slice(1).every(({ noPlace }) => noPlace === null)).toBe(true);
    const after = await sendAll(second, caseId, note('still open'));
    expect([after.state, after.revision, after.trail[0]?.noPlace !== null]).toEqual(['checking', 4, true]);
  });
});

/** A guide without one observation, as a later one may be. */
function without(knowledge: Knowledge, observation: string): Knowledge {
  const observations = new Map([...knowledge.observations].filter(([id]) => id !== observation));
  const later = { ...knowledge, version: 'later', observations };
  // Made once here, so that a fault in this stand-in shows at once.
  createCaseFlow(later);
  return later;
}
