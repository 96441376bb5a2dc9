import { describe, expect, it } from 'vitest';
import type { CallName } from '../../src-core/contract/call-names.ts';
import type { InputOf } from '../../src-core/contract/calls.ts';
import { programInMemory } from './program-in-memory.ts';

const heron = { label: 'Heron', conditions: {}, printHours: 12_000 };
const stringing = { complaints: [{ observation: 'stringing', value: 'slight' }] };

describe('A1: the meter of a printer', () => {
  it('can be lowered, as a correction or a reset, and a rename leaves it as it stands', async () => {
    const { ask, pass } = await programInMemory();
    const [{ id = '', revision = 0 } = {}] = (await ask('shop:save-printer', heron)).printers;
    pass(60);
    await ask('shop:save-printer', { ...heron, id, revision, printHours: 12_100 });
    pass(60);
    await expect(
      ask('shop:save-printer', { ...heron, id, revision: revision + 1, printHours: 5 }),
    ).rejects.toThrow('stood at 12,100 h: say whether');
    const reset = await ask('shop:save-printer', {
      ...heron,
      id,
      revision: revision + 1,
      printHours: 5,
      meter: 'reset',
    });
    expect(reset.printers[0]?.printHours).toBe(5);
    pass(60);
    const renamed = await ask('shop:save-printer', {
      ...heron,
      id,
      revision: revision + 2,
      label: 'Falcon',
      printHours: 5,
    });
    expect(renamed.printers[0]).toMatchObject({ label: 'Falcon', printHours: 5 });
    pass(60);
    await ask('shop:save-printer', { ...heron, id, revision: revision + 3, printHours: 9_000 });
    pass(60);
    await ask('shop:save-printer', {
      ...heron,
      id,
      revision: revision + 4,
      printHours: 15,
      meter: 'corrected',
    });
    await ask('case:open', { ...stringing, printerId: id });
    const { rows } = await ask('case:list', {});
    expect(rows[0]?.printerLabel).toBe('Heron');
    expect((await ask('shop:read', {})).printers[0]?.printHours).toBe(15);
  });
});

describe('B1, B2: two hands on one record', () => {
  const spool = { label: 'A-1', polymer: 'abs' };

  it('changing a printer from the same state: the first is kept, the second is told what stands there now', async () => {
    const { ask, dispatcher } = await programInMemory();
    const [{ id = '', revision = 0 } = {}] = (await ask('shop:save-printer', heron)).printers;
    const replies = await Promise.all(
      ['Falcon', 'Osprey'].map((label) =>
        dispatcher.call('shop:save-printer', { ...heron, id, revision, label }),
      ),
    );
    expect(replies[0]).toMatchObject({ ok: true });
    expect(replies[1]).toMatchObject({
      ok: false,
      error: { code: 'stale', current: { printers: [{ id, label: 'Falcon', revision: revision + 1 }] } },
    });
    // With what stands there now at hand, the second goes through.
    const next = await ask('shop:save-printer', { ...heron, id, revision: revision + 1, label: 'Osprey' });
    expect(next.printers).toMatchObject([{ label: 'Osprey', revision: revision + 2 }]);
  });

  it('changing a spool from the same state: the same', async () => {
    const { ask, dispatcher } = await programInMemory();
    const [{ id = '', revision = 0 } = {}] = (await ask('shop:save-spool', spool)).spools;
    const replies = await Promise.all(
      ['from the window', 'from the shelf'].map((note) =>
        dispatcher.call('shop:save-spool', { ...spool, id, revision, note }),
      ),
    );
    expect(replies[0]).toMatchObject({ ok: true });
    expect(replies[1]).toMatchObject({
      ok: false,
      error: {
        code: 'stale',
        current: { spools: [{ id, note: 'from the window', revision: revision + 1 }] },
      },
    });
    expect((await ask('shop:read', {})).spools).toMatchObject([{ note: 'from the window' }]);
  });

  it('a double click writes nothing twice, added or changed', async () => {
    const { ask, dispatcher, program } = await programInMemory();
    const twice = async <N extends CallName>(name: N, input: InputOf<N>) =>
      (await Promise.all([dispatcher.call(name, input), dispatcher.call(name, input)])).filter(
        ({ ok }) => ok,
      );
    expect(await twice('shop:save-printer', heron)).toHaveLength(1);
    expect(await twice('shop:save-spool', spool)).toHaveLength(1);
    const shop = await ask('shop:read', {});
    expect([shop.printers.length, shop.spools.length]).toEqual([1, 1]);
    const [{ id = '', revision = 0 } = {}] = shop.printers;
    const reset = { ...heron, id, revision, printHours: 5, meter: 'reset' as const };
    expect(await twice('shop:save-printer', reset)).toHaveLength(1);
    // The reading it was added with, and one of the reset.
    expect(await program.casebook.db.selectFrom('hour_readings').selectAll().execute()).toHaveLength(2);
  });

  it('a refused change moves no revision on, and a change that does not say what it rests on is refused', async () => {
    const { ask, dispatcher } = await programInMemory();
    const [{ id = '', revision = 0 } = {}] = (await ask('shop:save-printer', heron)).printers;
    await expect(ask('shop:save-printer', { ...heron, id, revision, printHours: 5 })).rejects.toThrow(
      'meter',
    );
    expect((await ask('shop:read', {})).printers[0]?.revision).toBe(revision);
    const [{ id: spoolId = '' } = {}] = (await ask('shop:save-spool', spool)).spools;
    for (const reply of [
      await dispatcher.call('shop:save-printer', { ...heron, id, label: 'Falcon' }),
      await dispatcher.call('shop:save-spool', { ...spool, id: spoolId, label: 'A-2' }),
    ])
      expect(reply).toMatchObject({ ok: false, error: { code: 'bad-request' } });
  });
});

describe('B2: names', () => {
  it('two hands adding a printer, a spool and a person of one name at once: one of each', async () => {
    const { ask, dispatcher } = await programInMemory();
    const twin = { label: 'Twin', conditions: {}, printHours: 1 };
    const replies = await Promise.all([
      dispatcher.call('shop:save-printer', twin),
      dispatcher.call('shop:save-printer', { ...twin, label: 'TWIN' }),
      dispatcher.call('shop:save-spool', { label: 'A-1', polymer: 'abs' }),
      dispatcher.call('shop:save-spool', { label: 'a-1', polymer: 'pla' }),
      dispatcher.call('shop:save-person', { initials: 'RK', role: 'lead' }),
      dispatcher.call('shop:save-person', { initials: 'RK', role: 'operator' }),
    ]);
    expect(replies.filter((reply) => reply.ok)).toHaveLength(3);
    const shop = await ask('shop:read', {});
    expect([shop.printers.length, shop.spools.length, shop.people.length]).toEqual([1, 1, 1]);
  });

  it('that cannot be seen, or turn the words around them about, are refused', async () => {
    const { ask } = await programInMemory();
    for (const label of ['\u200b\u200b', 'Heron\u202e', '\u2066Heron'])
      await expect(ask('shop:save-printer', { ...heron, label })).rejects.toThrow('cannot be seen');
  });
});

describe('times', () => {
  it('before this century are a slip of the keys', async () => {
    const { ask } = await programInMemory();
    await expect(
      ask('shop:save-spool', { label: 'A', polymer: 'abs', openedAt: '0026-03-01T00:00:00.000Z' }),
    ).rejects.toThrow('year 0026');
  });
});
