import { expect, it } from 'vitest';
import { aClosedCase } from './a-closed-case.ts';
import { programInMemory } from './program-in-memory.ts';

it('a printer whose meter nobody reads counts by its usual week, until somebody reads it', async () => {
  const { ask, pass } = await programInMemory({ start: '2026-03-02T08:00:00.000Z' });
  const { printers } = await ask('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 0 });
  const printerId = printers[0]?.id ?? '';
  await aClosedCase({ ask }, { printerId });
  pass(28 * 24 * 60);
  const found = () => ask('lead:recurrence', {});
  expect(await found()).toMatchObject({
    exposure: 'cases',
    printHours: 0,
    estimatedHours: 0,
    unread: [{ printerId, label: 'Heron', cases: 1, hoursPerWeek: null }],
  });
  expect(await ask('lead:save-usual-hours', { printerId, hoursPerWeek: 42 })).toEqual({ [printerId]: 42 });
  const estimated = await found();
  expect(estimated).toMatchObject({ exposure: 'print-hours', unread: [{ hoursPerWeek: 42 }] });
  expect(estimated.printHours).toBeCloseTo(4 * 42, 0);
  expect(estimated.estimatedHours).toBe(estimated.printHours);
  expect(estimated.rows.every(({ isEstimated }) => isEstimated)).toBe(true);
  await expect(ask('lead:save-usual-hours', { printerId, hoursPerWeek: 169 })).rejects.toThrow('168');
  await expect(
    ask('lead:save-usual-hours', { printerId: '01ARZ3NDEKTSV4RRFFQ69G5FAV', hoursPerWeek: 1 }),
  ).rejects.toThrow('no such printer');
  // A reading is worth more than what was said.
  const { printers: now } = await ask('shop:read', {});
  const { revision = 1 } = now[0] ?? {};
  await ask('shop:save-printer', {
    id: printerId,
    revision,
    label: 'Heron',
    conditions: {},
    printHours: 100,
  });
  expect(await found()).toMatchObject({ printHours: 100, estimatedHours: 0, unread: [] });
  expect(await ask('lead:save-usual-hours', { printerId, hoursPerWeek: null })).toEqual({});
});
