import { describe, expect, it } from 'vitest';
import type { TrainingRunInput } from '../../src-core/contract/training-view.ts';
import { buildTrainingView } from '../../src-core/training/training-view.ts';
import {
  ClassList,
  MOST_RESULTS,
  type ClassResult,
} from '../../src-renderer/screens/practice/class-list.svelte.ts';
import { faultOfNumber, PracticeRound } from '../../src-renderer/screens/practice/practice-round.svelte.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { memoryStore, scriptedHost } from './scripted-host.ts';

const play = ({ input }: { input: unknown }) => {
  const { seed, family = null, actions } = input as TrainingRunInput;
  return { ok: true, value: buildTrainingView(shippedKnowledge(), { seed, family, actions }) };
};

describe('a practice round', () => {
  it('is taken up after a reload with everything that was done', async () => {
    const store = memoryStore();
    const { host } = scriptedHost(play);
    const first = new PracticeRound(host, store, () => 0.5);
    await first.begin(7, null);
    const check = first.view?.checks[0]?.observation ?? '';
    await first.act({ kind: 'check', observation: check });

    const again = new PracticeRound(host, store, () => 0.5);
    await again.takeUp();
    expect(again.seed).toBe(7);
    expect(again.view?.done.map((one) => one.id)).toEqual([check]);
    expect(again.view).toEqual(first.view);
  });

  it('takes one move at a time', async () => {
    const { host, asked } = scriptedHost(play);
    const round = new PracticeRound(host, memoryStore(), () => 0.5);
    await round.begin(7, null);
    const [one, two] = round.view?.checks ?? [];
    const moves = [one, two].map((each) =>
      round.act({ kind: 'check', observation: each?.observation ?? '' }),
    );
    expect(await Promise.all(moves)).toEqual([true, false]);
    expect(asked).toHaveLength(2);
    expect(round.actions).toHaveLength(1);
  });

  it('keeps what was done when a move does not go through', async () => {
    let isDown = false;
    const { host } = scriptedHost((call) =>
      isDown ? { ok: false, error: { code: 'internal', message: 'down' } } : play(call),
    );
    const round = new PracticeRound(host, memoryStore(), () => 0.5);
    await round.begin(7, null);
    const check = round.view?.checks[0]?.observation ?? '';
    await round.act({ kind: 'check', observation: check });
    isDown = true;
    expect(await round.act({ kind: 'check', observation: round.view?.checks[0]?.observation ?? '' })).toBe(
      false,
    );
    expect(round.failure?.message).toBe('down');
    expect(round.actions).toEqual([{ kind: 'check', observation: check }]);
    expect(round.view?.done).toHaveLength(1);
  });

  it('gives the same case again with nothing done, and takes no move after the cause is named', async () => {
    const { host } = scriptedHost(play);
    const round = new PracticeRound(host, memoryStore(), () => 0.5);
    await round.begin(7, 'moisture');
    const story = round.view?.story;
    await round.act({ kind: 'name-cause', cause: 'wet-filament' });
    expect(round.view?.isOver).toBe(true);
    expect(await round.act({ kind: 'check', observation: 'stringing' })).toBe(false);
    await round.sameAgain();
    expect(round.view?.story).toEqual(story);
    expect(round.actions).toEqual([]);
  });

  it('knows a case number from other text', () => {
    expect(faultOfNumber('4294967295')).toBeNull();
    expect([
      faultOfNumber('4294967296'),
      faultOfNumber('-1'),
      faultOfNumber('1.5'),
      faultOfNumber(''),
    ]).not.toContain(null);
  });
});

describe('the class table', () => {
  const result = (initials: string, points: number, minutesSpent = 10): ClassResult => ({
    seed: 7,
    family: null,
    initials,
    points,
    namedCause: 'Wet filament',
    isCauseRight: points > 0,
    minutesSpent,
    checks: 2,
    remedies: 0,
  });

  it('puts the best first, the quicker before the slower, and other cases aside', () => {
    const list = new ClassList(memoryStore());
    for (const one of [result('aa', 60, 30), result('bb', 90), result('cc', 60, 20)]) list.note(one);
    list.note({ ...result('dd', 100), seed: 8 });
    expect(list.of(7, null).map((one) => one.initials)).toEqual(['BB', 'CC', 'AA']);
  });

  it('keeps the results of two people with the same initials apart, also after a reload', () => {
    const store = memoryStore();
    const list = new ClassList(store);
    expect(list.note(result('rk', 80)).who).toBe('RK');
    expect(list.note(result('RK', 0)).who).toBe('RK\u00a02');
    expect(list.note({ ...result('rk', 50), seed: 8 }).who).toBe('RK');
    expect(list.note(result(' rk ', 90)).who).toBe('RK\u00a03');
    expect(new ClassList(store).of(7, null).map((one) => [one.who, one.points])).toEqual([
      ['RK\u00a03', 90],
      ['RK', 80],
      ['RK\u00a02', 0],
    ]);
  });

  it('clears the results of one case and keeps those of others', () => {
    const list = new ClassList(memoryStore());
    list.note(result('aa', 1));
    list.note({ ...result('aa', 2), seed: 8 });
    list.clear(7, null);
    expect(list.of(7, null)).toEqual([]);
    expect(list.of(8, null)).toHaveLength(1);
  });

  it('B15: does not write a list back that another page has cleared', () => {
    const store = memoryStore();
    const [one, other] = [new ClassList(store), new ClassList(store)];
    for (const initials of ['RK', 'LM', 'TS']) one.note(result(initials, 50));
    other.clear(7, null);
    one.note(result('AB', 50));
    expect(new ClassList(store).results.map(({ initials }) => initials)).toEqual(['AB']);
  });

  it('takes twelve people twice and no names', () => {
    const list = new ClassList(memoryStore());
    expect(MOST_RESULTS).toBe(2 * 12);
    for (let i = 0; i < MOST_RESULTS; i++)
      expect(list.note(result(`A${String.fromCharCode(65 + (i % 12))}`, i)).fault).toBeNull();
    expect(list.note(result('ZZ', 1)).fault).toMatch(/at most 24/);
    expect(list.of(7, null)).toHaveLength(24);
    expect(list.note(result('Robert', 1)).fault).toMatch(/Initials/);
  });

  it('loses nothing where two pages of one browser note in turn', () => {
    const store = memoryStore();
    const [one, other] = [new ClassList(store), new ClassList(store)];
    one.note(result('AB', 50));
    other.note(result('CD', 60));
    one.note(result('EF', 70));
    expect(new ClassList(store).of(7, null).map(({ who }) => who)).toEqual(['EF', 'CD', 'AB']);
  });
});
