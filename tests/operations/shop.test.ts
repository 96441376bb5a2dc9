import { describe, expect, it } from 'vitest';
import { programInMemory } from './program-in-memory.ts';

const heron = { label: 'Heron', conditions: {}, printHours: 12_000 };
const stringing = { complaints: [{ observation: 'stringing', value: 'slight' }] };

describe('A1: the meter of a printer', () => {
  it('can be lowered, as a correction or a reset, and a rename leaves it as it stands', async () => {
    const { ask, pass } = await programInMemory();
    const id = (await ask('shop:save-printer', heron)).printers[0]?.id ?? '';
    pass(60);
    await ask('shop:save-printer', { ...heron, id, printHours: 12_100 });
    pass(60);
    await expect(ask('shop:save-printer', { ...heron, id, printHours: 5 })).rejects.toThrow(
      'stood at 12,100 h: say whether',
    );
    const reset = await ask('shop:save-printer', { ...heron, id, printHours: 5, meter: 'reset' });
    expect(reset.printers[0]?.printHours).toBe(5);
    pass(60);
    const renamed = await ask('shop:save-printer', { ...heron, id, label: 'Falcon', printHours: 5 });
    expect(renamed.printers[0]).toMatchObject({ label: 'Falcon', printHours: 5 });
    pass(60);
    await ask('shop:save-printer', { ...heron, id, printHours: 9_000 });
    pass(60);
    await ask('shop:save-printer', { ...heron, id, printHours: 15, meter: 'corrected' });
    await ask('case:open', { ...stringing, printerId: id });
    const { rows } = await ask('case:list', {});
    expect(rows[0]?.printerLabel).toBe('Heron');
    expect((await ask('shop:read', {})).printers[0]?.printHours).toBe(15);
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
