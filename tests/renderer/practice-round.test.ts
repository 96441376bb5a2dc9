import { describe, expect, it } from 'vitest';
import type { TrainingRunInput } from '../../src-core/contract/training-view.ts';
import { buildTrainingView } from '../../src-core/training/training-view.ts';
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
    await first.begin({ seed: 7 });
    const check = first.view?.checks[0]?.observation ?? '';
    await first.act({ kind: 'check', observation: check });

    const again = new PracticeRound(host, store, () => 0.5);
    await again.takeUp();
    expect(again.base?.seed).toBe(7);
    expect(again.view?.done.map((one) => one.id)).toEqual([check]);
    expect(again.view).toEqual(first.view);
  });

  it('takes one move at a time', async () => {
    const { host, asked } = scriptedHost(play);
    const round = new PracticeRound(host, memoryStore(), () => 0.5);
    await round.begin({ seed: 7 });
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
    await round.begin({ seed: 7 });
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
    await round.begin({ seed: 7, family: 'moisture' });
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
