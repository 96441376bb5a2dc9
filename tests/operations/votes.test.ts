import { describe, expect, it } from 'vitest';
import type { InputOf, OutputOf } from '../../src-core/contract/calls.ts';
import type { CallName } from '../../src-core/contract/call-names.ts';
import type { Role } from '../../src-core/contract/roles.ts';
import type { Visitor } from '../../src-main/operations/access/visitor.ts';
import { programInMemory, type TestProgram } from './program-in-memory.ts';

const ballotId = '01ARZ3NDEKTSV4RRFFQ69G5FB1';
const ballot = {
  ballotId,
  kind: 'check' as const,
  title: 'Ghosts beside every corner',
  complaints: ['Ringing, heavy'],
  choices: [
    { id: 'belt-pluck-low', label: 'Belt slack' },
    { id: 'play-at-the-head', label: 'Play at the head' },
  ],
};
const shown = { hands: {}, outcome: null, right: [] };

function phone(last: string, person: string | null = null, role: Role = 'operator'): Visitor {
  return {
    kind: 'device',
    deviceId: `01ARZ3NDEKTSV4RRFFQ69G5D0${last}`,
    label: `Telephone ${last}`,
    role,
    printerId: null,
    person: person === null ? null : { id: `01ARZ3NDEKTSV4RRFFQ69G5P0${last}`, initials: person },
  };
}

type Reply<N extends CallName> =
  | { readonly ok: true; readonly value: OutputOf<N> }
  | { readonly ok: false; readonly error: { readonly code: string; readonly message: string } };

function from<N extends CallName>(test: TestProgram, by: Visitor, name: N, input: InputOf<N>) {
  return test.dispatcher.dispatch(name, input, by) as Promise<Reply<N>>;
}

async function look(test: TestProgram, by: Visitor) {
  const reply = await from(test, by, 'vote:look', {});
  if (!reply.ok) throw new Error(reply.error.message);
  return reply.value.ballot;
}

describe('a vote of a group session', () => {
  it('counts each device once, its last tap, until it is revealed; nobody sees others before', async () => {
    const test = await programInMemory();
    await test.ask('vote:ask', ballot);
    const cast = (last: string, choice: string) => from(test, phone(last), 'vote:cast', { ballotId, choice });
    await Promise.all(['1', '2', '3'].map((last) => cast(last, 'belt-pluck-low')));
    await cast('1', 'play-at-the-head');
    await cast('1', 'play-at-the-head');
    expect(await look(test, phone('1'))).toMatchObject({
      cast: 3,
      own: 'play-at-the-head',
      result: null,
      voters: null,
    });
    expect(await look(test, phone('4'))).toMatchObject({ cast: 3, own: null });

    await test.ask('vote:reveal', { ballotId, result: { ...shown, hands: { 'belt-pluck-low': 4 } } });
    expect((await look(test, phone('4')))?.result).toMatchObject({
      hands: { 'belt-pluck-low': 4 },
      votes: [
        { choice: 'belt-pluck-low', count: 2 },
        { choice: 'play-at-the-head', count: 1 },
      ],
    });
    expect(await cast('2', 'play-at-the-head')).toMatchObject({ ok: false, error: { code: 'stale' } });
    expect((await look(test, phone('2')))?.own).toBe('belt-pluck-low');
  });

  it('counts a person once, on whatever device, also where the device voted before anybody signed in', async () => {
    const test = await programInMemory();
    await test.ask('vote:ask', ballot);
    const choice = 'belt-pluck-low';
    await from(test, phone('1'), 'vote:cast', { ballotId, choice });
    await from(test, phone('1', 'NB'), 'vote:cast', { ballotId, choice });
    const elsewhere = { ...phone('2', 'NB'), person: { id: '01ARZ3NDEKTSV4RRFFQ69G5P01', initials: 'NB' } };
    await from(test, elsewhere as Visitor, 'vote:cast', { ballotId, choice: 'play-at-the-head' });
    const leader = phone('9', null, 'trainer');
    expect((await look(test, leader))?.voters).toEqual([
      {
        label: 'Telephone 2',
        personId: '01ARZ3NDEKTSV4RRFFQ69G5P01',
        initials: 'NB',
        choice: 'play-at-the-head',
      },
    ]);
  });

  it('is put up, revealed and ended by whoever teaches only, and never cast at the machine itself', async () => {
    const test = await programInMemory();
    const calls = [
      ['vote:ask', ballot],
      ['vote:reveal', { ballotId, result: shown }],
      ['vote:end', {}],
    ] as const;
    for (const [name, input] of calls)
      expect(await from(test, phone('1'), name, input)).toMatchObject({ error: { code: 'forbidden' } });
    expect(await from(test, phone('1', null, 'trainer'), 'vote:ask', ballot)).toMatchObject({ ok: true });
    const atTheMachine = await test.dispatcher.call('vote:cast', { ballotId, choice: 'belt-pluck-low' });
    expect(atTheMachine).toMatchObject({ error: { code: 'refused' } });
    const unknown = await from(test, phone('1'), 'vote:cast', { ballotId, choice: 'no-such-choice' });
    expect(unknown).toMatchObject({ error: { code: 'bad-request' } });
  });

  it('is told to whoever follows, gives way to the next, and is gone with all votes at the end or after a day', async () => {
    const test = await programInMemory();
    const heard: (readonly string[])[] = [];
    test.program.changes.follow(({ topics }) => heard.push(topics));
    await test.ask('vote:ask', ballot);
    await from(test, phone('1'), 'vote:cast', { ballotId, choice: 'belt-pluck-low' });
    expect(heard).toEqual([['vote'], ['vote']]);
    const next = { ...ballot, ballotId: '01ARZ3NDEKTSV4RRFFQ69G5FB2' };
    await test.ask('vote:ask', next);
    expect(await look(test, phone('1'))).toMatchObject({ ballotId: next.ballotId, cast: 0, own: null });
    const late = await from(test, phone('1'), 'vote:cast', { ballotId, choice: 'belt-pluck-low' });
    expect(late).toMatchObject({ error: { code: 'stale' } });
    test.pass(24 * 60);
    expect(await look(test, phone('1'))).toBeNull();
    const tomorrow = await from(test, phone('1'), 'vote:cast', {
      ballotId: next.ballotId,
      choice: 'no-such',
    });
    expect(tomorrow).toMatchObject({ error: { code: 'stale' } });
    const told = await test.dispatcher.call('vote:reveal', { ballotId: next.ballotId, result: shown });
    expect(told).toMatchObject({ error: { code: 'stale' } });
    expect(await test.program.casebook.db.selectFrom('ballot_votes').selectAll().execute()).toEqual([]);
    await test.ask('vote:end', {});
    for (const table of ['ballots', 'ballot_votes'] as const)
      expect(await test.program.casebook.db.selectFrom(table).selectAll().execute()).toEqual([]);
  });
});
