import { describe, expect, it } from 'vitest';
import { ANY_FAULT, GROUPINGS } from '../../src-core/contract/recurrence-choices.ts';
import type { ActionPlanInput } from '../../src-core/contract/action-view.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { programInMemory } from './program-in-memory.ts';

const plan: ActionPlanInput = { title: 'Buy a dryer', kind: 'purchase', owner: 'RK', dueOn: '2026-03-06' };
const about: ActionPlanInput['about'] = {
  by: 'printer',
  where: null,
  whereLabel: 'Whole shop',
  what: 'wet-filament',
  whatLabel: 'Wet filament',
};

describe('an action', () => {
  it('is opened, given to somebody, put off, done and taken up again; its log says it all', async () => {
    const { ask, pass, program } = await programInMemory();
    const { actions } = await ask('action:open', { plan });
    expect(actions).toMatchObject([
      { state: 'open', owner: 'RK', due: 'this-week', revision: 1, expectedRatio: 0.5 },
    ]);
    const [{ actionId = '' } = {}] = actions;
    const log = async (revision: number, event: Parameters<typeof ask<'action:log'>>[1]['event']) =>
      (await ask('action:log', { actionId, revision, event })).actions[0];
    expect(await log(1, { kind: 'assigned', owner: 'JO', dueOn: '2026-03-20' })).toMatchObject({
      owner: 'JO',
      due: 'later',
    });
    expect(await log(2, { kind: 'snoozed', until: '2026-03-04' })).toMatchObject({
      state: 'snoozed',
      due: null,
    });
    pass(3 * 24 * 60);
    expect((await ask('action:list', {})).actions[0]).toMatchObject({ state: 'open', snoozedUntil: null });
    expect(await log(3, { kind: 'done', on: '2026-03-05' })).toMatchObject({
      state: 'done',
      doneOn: '2026-03-05',
      effect: null,
    });
    await expect(log(4, { kind: 'assigned', owner: null, dueOn: null })).rejects.toThrow('reopen it first');
    expect(await log(4, { kind: 'reopened' })).toMatchObject({ state: 'open', doneOn: null });
    expect(await log(5, { kind: 'dismissed', reason: 'No room for it' })).toMatchObject({
      state: 'dismissed',
      dismissedBecause: 'No room for it',
    });
    const rows = await program.casebook.db.selectFrom('action_events').selectAll().execute();
    expect(rows.length).toBe(6);
  });

  it('a double click writes nothing twice: not the opening, not what follows', async () => {
    const { ask, dispatcher } = await programInMemory();
    const opened = await Promise.all(
      [1, 2].map(() => dispatcher.call('action:open', { plan: { ...plan, about } })),
    );
    expect(opened.map((reply) => (reply.ok ? 'ok' : reply.error.code)).sort()).toEqual(['ok', 'stale']);
    const { actions } = await ask('action:list', {});
    expect(actions.length).toBe(1);
    const call = {
      actionId: actions[0]?.actionId ?? '',
      revision: 1,
      event: { kind: 'done', on: '2026-03-01' },
    } as const;
    const done = await Promise.all([1, 2].map(() => dispatcher.call('action:log', call)));
    expect(done.map((reply) => (reply.ok ? 'ok' : reply.error.code)).sort()).toEqual(['ok', 'stale']);
    expect((await ask('action:list', {})).actions[0]?.revision).toBe(2);
    // Once it is done the same finding may lead to another.
    await ask('action:open', { plan: { ...plan, about } });
  });

  it('a finding is put off or turned down in one go, with its reason', async () => {
    const { ask } = await programInMemory();
    await ask('action:open', {
      plan: { ...plan, about },
      then: { kind: 'dismissed', reason: 'One bad lot, sent back' },
    });
    expect((await ask('action:list', {})).actions).toMatchObject([{ state: 'dismissed', revision: 2 }]);
    await expect(
      ask('action:open', {
        plan: { ...plan, title: 'Another' },
        then: { kind: 'snoozed', until: '2026-03-02' },
      }),
    ).rejects.toThrow('still to come');
    await expect(
      ask('action:open', { plan: { ...plan, title: 'Another' }, then: { kind: 'dismissed', reason: ' ' } }),
    ).rejects.toThrow('say why');
    expect((await ask('action:list', {})).actions.length).toBe(1);
  });

  it('what cannot be is refused: a day to come, an action that is not there', async () => {
    const { ask } = await programInMemory();
    const { actions } = await ask('action:open', { plan });
    const actionId = actions[0]?.actionId ?? '';
    await expect(
      ask('action:log', { actionId, revision: 1, event: { kind: 'done', on: '2026-03-03' } }),
    ).rejects.toThrow('has not come yet');
    await expect(
      ask('action:log', { actionId: '0'.repeat(26), revision: 1, event: { kind: 'reopened' } }),
    ).rejects.toThrow('not there any more');
  });

  it('an entry of a version to come is set aside, and the others are shown', async () => {
    const { ask, program } = await programInMemory();
    const { actions } = await ask('action:open', { plan });
    const actionId = actions[0]?.actionId ?? '';
    await program.casebook.db
      .insertInto('action_events')
      .values({ action_id: actionId, seq: 2, at: '2026-03-02T09:00:00.000Z', event_json: '{"kind":"voted"}' })
      .execute();
    const list = await ask('action:list', {});
    expect(list).toMatchObject({ unreadable: 1, actions: [{ state: 'open', revision: 2 }] });
    await ask('action:log', { actionId, revision: 2, event: { kind: 'done', on: '2026-03-02' } });
  });
});

it('the demo year has something for each of the lead’s questions', async () => {
  const { ask, program } = await programInMemory();
  await ask('demo:load', {});

  // What helped, what cannot be told yet, what is due and what was put off.
  const { actions } = await ask('action:list', {});
  const dryer = actions.find(({ title }) => title.startsWith('Dryer'));
  expect(dryer?.effect).toMatchObject({ verdict: 'helped' });
  expect(dryer?.effect?.high).toBeLessThan(1);
  const wall = actions.find(({ title }) => title.startsWith('Move it'));
  expect(wall?.effect).toMatchObject({ verdict: 'not-yet' });
  expect(actions.map(({ due }) => due)).toEqual(['overdue', 'this-week', null, null, null]);
  expect(actions.some(({ state }) => state === 'snoozed')).toBe(true);
  expect(await ask('action:count-due', {})).toEqual({ due: 1 });

  // By every grouping, and what is said adds up.
  for (const by of GROUPINGS) {
    const found = await ask('lead:recurrence', { by });
    expect(found.rows.length, by).toBeGreaterThan(0);
    const inGroups = found.groups.reduce((sum, one) => sum + one.count, 0);
    expect(inGroups + found.withoutGroup, by).toBe(found.caseCount);
    const hasHours = ['printer', 'nozzle', 'practice', 'month'].includes(by);
    expect(found.exposure, by).toBe(hasHours ? 'print-hours' : 'cases');
    // Groups that neither guide nor people name are said by id, in the reader's language.
    const names = found.groups.map(({ label }) => label);
    if (by === 'month') expect(names.map(inEnglish)).toContain('March');
    if (by === 'shift') expect(names.map(inEnglish)).toContain('Early shift (6 to 14)');
    if (by === 'month' || by === 'shift') expect(names.every((one) => typeof one === 'object')).toBe(true);
    if (by !== 'printer') continue;
    expect(found.rows.find(({ what }) => what === ANY_FAULT)?.whatLabel).toEqual({ id: 'findings.anyFault' });
    expect(found.groups.reduce((sum, one) => sum + (one.printHours ?? 0), 0)).toBeCloseTo(
      found.printHours,
      3,
    );
    expect(found.months.reduce((sum, one) => sum + one.count, 0)).toBe(found.caseCount);
    expect(found.months.reduce((sum, one) => sum + one.printHours, 0)).toBeCloseTo(found.printHours, 3);
    expect(found.rows.filter(({ standing }) => standing === 'stands-out').length).toBeGreaterThan(1);
  }

  // Money, once the shop has said what an hour costs.
  expect((await ask('lead:recurrence', {})).money).toBeNull();
  await ask('shop:save-costs', {
    costs: { currency: 'EUR', workPerHour: 40, standstillPerHour: 20 },
    revision: 0,
  });
  const { money, minutesLost, currency } = await ask('lead:recurrence', {});
  expect(money).toBeCloseTo(minutesLost, 9);
  expect(currency).toBe('EUR');

  await ask('demo:remove', {});
  expect((await ask('action:list', {})).actions).toEqual([]);
  expect(await program.casebook.db.selectFrom('action_events').selectAll().execute()).toEqual([]);
});
