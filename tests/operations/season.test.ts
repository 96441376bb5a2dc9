import { expect, it } from 'vitest';
import { aClosedCase } from './a-closed-case.ts';
import { programInMemory } from './program-in-memory.ts';

it('a month’s humidity is entered, overrules what is typical of it, and is taken out again; two hands do not write over each other', async () => {
  const { ask } = await programInMemory({ start: '2026-03-20T08:00:00.000Z' });
  await aClosedCase({ ask });
  const before = await ask('lead:season', {});
  expect(before).toMatchObject({ revision: 0, verdict: 'few-months' });
  expect(before.months).toMatchObject([
    { month: '2026-03', percentRh: null, source: 'missing', moisture: 1, rest: 0 },
  ]);
  const months = Array.from({ length: 12 }, () => ({ temperatureC: 21, percentRh: 52 }));
  await ask('shop:save-climate', { climate: { kind: 'by-month', months }, revision: 0 });
  expect((await ask('lead:season', {})).months[0]).toMatchObject({ percentRh: 52, source: 'typical' });
  const entered = await ask('lead:save-humidity', { month: '2026-03', percentRh: 64, revision: 0 });
  expect(entered).toMatchObject({ revision: 1, months: [{ percentRh: 64, source: 'entered' }] });
  await expect(ask('lead:save-humidity', { month: '2026-03', percentRh: 30, revision: 0 })).rejects.toThrow(
    'stale',
  );
  await expect(ask('lead:save-humidity', { month: '2026-04', percentRh: 30, revision: 1 })).rejects.toThrow(
    'has not begun',
  );
  const out = await ask('lead:save-humidity', { month: '2026-03', percentRh: null, revision: 1 });
  expect(out.months[0]).toMatchObject({ percentRh: 52, source: 'typical' });
});
