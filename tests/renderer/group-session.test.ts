import { describe, expect, it } from 'vitest';
import type { TrainingRunInput } from '../../src-core/contract/training-view.ts';
import type { Ballot, BallotInput, BallotResult } from '../../src-core/contract/vote-view.ts';
import { buildTrainingView } from '../../src-core/training/training-view.ts';
import { GroupSession } from '../../src-renderer/screens/session/group-session.svelte.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { memoryStore, scriptedHost } from './scripted-host.ts';

const [AA, BB] = ['01ARZ3NDEKTSV4RRFFQ69G5FAA', '01ARZ3NDEKTSV4RRFFQ69G5FAB'] as const;
const people = [
  { id: AA, label: 'AA' },
  { id: BB, label: 'BB' },
];
const belt = { id: 'belt-pluck-low', label: 'Belt slack' };
const wheel = { id: 'wheel-worn', label: 'Wheel worn' };
type Voters = NonNullable<Ballot['voters']>;

/** A station with one vote under way; the test says what devices vote. */
function room() {
  let asked: BallotInput | null = null;
  let result: BallotResult | null = null;
  let voters: Voters = [];
  const ballot = (): Ballot | null =>
    asked && {
      ...asked,
      askedAt: '2026-03-02T08:00:00.000Z',
      cast: voters.length,
      own: null,
      result: result && { ...result, votes: [] },
      voters,
    };
  const { host, asked: calls } = scriptedHost(({ name, input }) => {
    switch (name) {
      case 'training:view':
        return { ok: true, value: buildTrainingView(shippedKnowledge(), input as TrainingRunInput) };
      case 'vote:ask':
        [asked, result, voters] = [input as BallotInput, null, []];
        break;
      case 'vote:reveal':
        result = (input as { result: BallotResult }).result;
        break;
      case 'vote:end':
        asked = null;
    }
    return { ok: true, value: { ballot: ballot() } };
  });
  return {
    host,
    calls,
    vote: (next: Voters) => (voters = next),
    told: () => result,
    isUp: () => asked !== null,
  };
}

async function begun(store = memoryStore()) {
  const shop = room();
  const session = new GroupSession(shop.host, store, () => 0.5);
  await session.begin({ seed: 1, scenario: 'ghosts-at-the-corner' }, people);
  return { ...shop, session, store };
}

const device = (label: string, choice: string, personId: string | null = null) => ({
  label,
  personId,
  initials: personId === null ? null : 'AA',
  choice,
});

describe('a group session', () => {
  it('goes by hands alone where no device is asked, and asks the station for no vote then', async () => {
    const { session, calls } = await begun();
    session.put(belt);
    session.put(wheel);
    session.count(belt.id, 1);
    expect(session.winner?.id).toBe(belt.id);
    await session.doIt();
    expect(session.view?.done.map(({ id }) => id)).toEqual([belt.id]);
    expect(session.choices).toEqual([]);
    await session.end();
    expect(calls.filter(({ name }) => name.startsWith('vote:'))).toEqual([]);
  });

  it('keeps votes of devices covered until they are revealed, then adds them to the hands, and tells what came of it', async () => {
    const { session, vote, told, isUp } = await begun();
    session.put(belt);
    session.put(wheel);
    await session.ask();
    vote([device('1', wheel.id), device('2', wheel.id), device('3', belt.id)]);
    await session.readVotes();
    session.count(belt.id, 1);
    expect(session.isToBeRevealed).toBe(true);
    expect(session.tally.map(({ total }) => total)).toEqual([1, 0]);
    await session.revealVotes();
    expect(session.tally.map(({ total }) => total)).toEqual([2, 2]);
    session.count(belt.id, 1);
    await session.doIt();
    expect(told()).toMatchObject({ hands: { [belt.id]: 2, [wheel.id]: 0 } });
    expect(told()?.outcome).toMatch(/^Belt slack.*: /);
    await session.end();
    expect(isUp()).toBe(false);
  });

  it('keeps the last vote by person, of a device on which somebody is signed in as of whom the trainer asked', async () => {
    const { session, calls, vote, host, store } = await begun();
    session.turnTo('cause');
    expect(session.choices.map(({ id }) => id)).toContain('belt-loose');
    await session.ask();
    session.say(AA, 'belt-worn');
    session.say(BB, 'belt-loose');
    vote([device('1', 'belt-loose', AA)]);
    await session.readVotes();
    // AA has told by device: what the trainer entered before counts no more.
    expect(session.said).toMatchObject([
      { personId: BB, cause: 'belt-loose' },
      { personId: AA, cause: 'belt-loose' },
    ]);
    await session.revealVotes();
    expect(session.tally.find(({ id }) => id === 'belt-loose')?.total).toBe(2);
    await session.reveal();
    expect(session.kept).toBe(2);
    const kept = calls.filter(({ name }) => name === 'training:keep').map(({ input }) => input);
    expect(kept).toMatchObject([{ personId: BB }, { personId: AA }]);
    const again = new GroupSession(host, store, () => 0.5);
    await again.takeUp();
    expect([again.isRevealed, again.kept]).toEqual([true, 2]);
  }, 120_000);

  it('is taken up after a reload with what stood on the wall', async () => {
    const { session, host, store } = await begun();
    session.put(belt);
    session.count(belt.id, 1);
    const again = new GroupSession(host, store, () => 0.5);
    await again.takeUp();
    expect(again.choices).toEqual([belt]);
    expect(again.winner?.id).toBe(belt.id);
    expect(again.people).toEqual(people);
  });
});
