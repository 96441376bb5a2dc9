import { inEnglish } from '../../src-core/words/in-english.ts';
import { describe, expect, it } from 'vitest';
import { clearOldBin } from '../../src-main/operations/handlers/bin.ts';
import { jpeg } from '../photos/jpeg.ts';
import { programInMemory } from './program-in-memory.ts';

const DAY = 24 * 60;
const complaints = [{ observation: 'stringing', value: 'slight' }];

async function shop() {
  const test = await programInMemory();
  const { ask } = test;
  const { printers } = await ask('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 100 });
  const printerId = printers[0]?.id ?? '';
  const { caseId } = await ask('case:open', { printerId, complaints, openedBy: 'JO', words: 'a trial' });
  await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
  return { ...test, caseId, printerId };
}

describe('the bin', () => {
  it('takes a case out of every list, and gives it back as it was', async () => {
    const { ask, caseId, program } = await shop();
    const before = await ask('case:view', { caseId });
    const { cases } = await ask('case:delete', { caseId, revision: 2 });
    expect(cases).toMatchObject([{ caseId, number: 1, goesAt: '2026-04-01T08:00:00.000Z' }]);
    expect((await ask('case:list', {})).total).toBe(0);
    expect((await ask('bench:read', {})).openCases).toEqual([]);
    expect((await ask('case:export', {})).count).toBe(0);
    await expect(ask('case:view', { caseId })).rejects.toThrow('not-found');
    // A new case does not take its number.
    expect((await ask('case:open', { complaints })).number).toBe(2);
    expect((await ask('bin:restore', { caseId })).cases).toEqual([]);
    expect(await ask('case:view', { caseId })).toEqual(before);
    expect((await ask('case:list', { search: 'trial' })).total).toBe(1);
    expect(await program.casebook.db.selectFrom('binned_cases').selectAll().execute()).toEqual([]);
  });

  it('keeps it for 30 days, then it is gone with its photos, unless another case has them too', async () => {
    const { ask, pass, caseId, program } = await shop();
    const { photo: own } = await ask('photo:keep', { base64: jpeg().toString('base64') });
    await ask('case:send', { caseId, revision: 2, event: { kind: 'photographed', photo: own } });
    await ask('case:delete', { caseId, revision: 3 });
    pass(29 * DAY);
    expect((await ask('bin:list', {})).cases.length).toBe(1);
    expect(await program.casebook.photos.read(own)).not.toBeNull();
    pass(2 * DAY);
    expect((await ask('bin:list', {})).cases).toEqual([]);
    expect(await program.casebook.photos.read(own)).toBeNull();
    await expect(ask('bin:restore', { caseId })).rejects.toThrow('not in the bin any more');

    const { photo } = await ask('photo:keep', { base64: jpeg().toString('base64') });
    const ids = [];
    for (let i = 0; i < 2; i++) {
      const one = await ask('case:open', { complaints });
      await ask('case:send', {
        caseId: one.caseId,
        revision: 1,
        event: { kind: 'danger-answered', present: [] },
      });
      await ask('case:send', { caseId: one.caseId, revision: 2, event: { kind: 'photographed', photo } });
      ids.push(one.caseId);
    }
    await ask('case:delete', { caseId: ids[0] ?? '', revision: 3 });
    await ask('bin:empty', {});
    expect(await program.casebook.photos.read(photo)).not.toBeNull();
  });

  it('is cleared of what is old at a start as well, and never of what is not', async () => {
    const { ask, pass, caseId, program } = await shop();
    await ask('case:delete', { caseId, revision: 2 });
    const left = async () =>
      (await program.casebook.db.selectFrom('binned_cases').selectAll().execute()).length;
    pass(29 * DAY);
    await clearOldBin(program);
    expect(await left()).toBe(1);
    pass(2 * DAY);
    await clearOldBin(program);
    expect(await left()).toBe(0);
  });

  it('does not take a case that has moved on meanwhile', async () => {
    const { ask, caseId } = await shop();
    await expect(ask('case:delete', { caseId, revision: 1 })).rejects.toThrow('moved on at another screen');
    expect((await ask('case:list', {})).total).toBe(1);
  });

  it('gives a case back whose printer is gone meanwhile, as with the demo shop', async () => {
    const { ask, program } = await programInMemory();
    const shopNow = await ask('shop:save-printer', { label: 'Wren', conditions: {}, printHours: 1 });
    const { caseId } = await ask('case:open', { printerId: shopNow.printers[0]?.id ?? '', complaints });
    await ask('case:delete', { caseId, revision: 1 });
    for (const table of ['hour_readings', 'printers'] as const)
      await program.casebook.db.deleteFrom(table).execute();
    expect((await ask('bin:restore', { caseId })).cases).toEqual([]);
    expect((await ask('case:view', { caseId })).printer).toBeNull();
  });
});

describe('a person', () => {
  async function withPerson() {
    const test = await shop();
    const { ask, caseId, printerId } = test;
    const { people } = await ask('shop:save-person', { initials: 'JO', role: 'operator' });
    await ask('case:send', { caseId, revision: 2, event: { kind: 'handed-over', to: 'JO', note: '' } });
    await ask('maintenance:log', {
      printerId,
      event: { kind: 'done', task: 'check-belts', by: 'JO' },
      revision: 0,
    });
    await ask('action:open', { plan: { title: 'Seal the tubs', kind: 'habit', owner: 'JO' } });
    const other = await ask('case:open', { complaints, openedBy: 'JO' });
    await ask('case:delete', { caseId: other.caseId, revision: 1 });
    const personId = people[0]?.id ?? '';
    const everything = async () => {
      await ask('bin:restore', { caseId: other.caseId });
      const view = await ask('case:view', { caseId });
      const history = await ask('maintenance:history', { printerId });
      return {
        opened: view.openedBy,
        trail: view.trail.map(({ text }) => inEnglish(text)).join(' '),
        done: history.entries[0]?.by,
        owner: (await ask('action:list', {})).actions[0]?.owner,
        binned: (await ask('case:view', { caseId: other.caseId })).openedBy,
        people: (await ask('shop:read', {})).people.map(({ initials }) => initials),
        found: (await ask('case:list', { search: 'jo' })).total,
        state: view.state,
      };
    };
    return { ...test, personId, everything };
  }

  it('gets other initials in every log, and in the bin', async () => {
    const { ask, personId, everything } = await withPerson();
    await ask('person:rename', { personId, initials: 'JX', revision: 1 });
    const now = await everything();
    expect(now).toMatchObject({
      opened: 'JX',
      done: 'JX',
      owner: 'JX',
      binned: 'JX',
      people: ['JX'],
      found: 0,
    });
    expect(now.trail).toContain('JX');
    expect(now.trail).not.toMatch(/\bJO\b/);
  });

  it('is taken out, and what was done stays', async () => {
    const { ask, personId, everything, program } = await withPerson();
    await ask('person:remove', { personId, revision: 1 });
    const now = await everything();
    expect(now).toMatchObject({
      opened: null,
      done: null,
      owner: null,
      binned: null,
      people: [],
      found: 0,
      state: 'handed-over',
    });
    for (const table of ['case_events', 'action_events', 'maintenance_events'] as const) {
      const rows = await program.casebook.db.selectFrom(table).select('event_json').execute();
      expect(rows.length).toBeGreaterThan(0);
      expect(JSON.stringify(rows)).not.toContain('\\"JO\\"');
    }
  });

  it('cannot get the initials of somebody else, nor go while two have the same', async () => {
    const { ask, personId } = await withPerson();
    await ask('shop:save-person', { initials: 'RK', role: 'lead' });
    await expect(ask('person:rename', { personId, initials: 'rk', revision: 1 })).rejects.toThrow(
      'somebody else',
    );
    await expect(ask('person:rename', { personId, initials: 'JX', revision: 7 })).rejects.toThrow('stale');
  });
});
