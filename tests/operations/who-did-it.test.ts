import { expect, it } from 'vitest';
import type { Visitor } from '../../src-main/operations/access/visitor.ts';
import { programInMemory } from './program-in-memory.ts';

const complaints = [{ observation: 'stringing', value: 'slight' }];

it('each entry of a case says who was signed in, in timeline, report and export, under the initials of today', async () => {
  const { ask, dispatcher } = await programInMemory();
  const { people } = await ask('shop:save-person', { initials: 'RK', role: 'operator' });
  const { id: personId = '', revision = 0 } = people[0] ?? {};
  const tablet: Visitor = {
    kind: 'device',
    deviceId: '01AAAAAAAAAAAAAAAAAAAAAAAA',
    label: 'Tablet',
    role: 'operator',
    printerId: null,
    person: { id: personId, initials: 'RK' },
  };
  const { caseId } = await ask('case:open', { complaints });
  const send = (by: Visitor | undefined, revision: number) =>
    dispatcher.dispatch(
      'case:send',
      { caseId, revision, event: { kind: 'noted', text: 'looked at it' } },
      by,
    );
  expect((await send(tablet, 1)).ok).toBe(true);
  // A tablet that nobody is signed in on, and the station itself.
  expect((await send({ ...tablet, person: null }, 2)).ok).toBe(true);
  expect((await send(undefined, 3)).ok).toBe(true);
  const who = async () => (await ask('case:timeline', { caseId })).steps.map(({ by }) => by);
  expect(await who()).toEqual([null, 'RK', null, null]);
  const about = { kind: 'case', caseId } as const;
  const csv = async () => (await ask('report:make', { about, form: { kind: 'csv', table: 'steps' } })).text;
  expect(await csv()).toMatch(/looked at it"?,RK,/);

  const { jsonLines } = await ask('case:export', { caseIds: null });
  const other = await programInMemory();
  expect(await other.ask('case:import', { jsonLines })).toMatchObject({ imported: 1, faults: [] });
  const came = await other.ask('case:timeline', { caseId });
  expect(came.steps.map(({ by }) => by)).toEqual([null, 'RK', null, null]);

  // In the bin as well.
  await ask('case:delete', { caseId, revision: 4 });
  await ask('person:rename', { personId, revision, initials: 'ZQ' });
  await ask('bin:restore', { caseId });
  expect(await who()).toEqual([null, 'ZQ', null, null]);
  const now = (await ask('shop:read', {})).people.find((one) => one.id === personId);
  await ask('person:remove', { personId, revision: now?.revision ?? 0 });
  expect(await who()).toEqual([null, null, null, null]);
});
