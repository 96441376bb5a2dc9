import { expect, it, onTestFinished } from 'vitest';
import { aClosedCase } from './a-closed-case.ts';
import { programInMemory } from './program-in-memory.ts';

it('B12: a case of the first minutes of a month counts in that month by the clock on the wall', async () => {
  const zone = process.env['TZ'];
  process.env['TZ'] = 'Pacific/Auckland';
  onTestFinished(() => {
    if (zone === undefined) delete process.env['TZ'];
    else process.env['TZ'] = zone;
  });
  // Half past midnight of the first of March there, still February in UTC.
  const { ask } = await programInMemory({ start: '2026-02-28T11:30:00.000Z' });
  await aClosedCase({ ask });
  const year = { fromDay: '2026-01-01', toDay: '2026-12-31' };
  const { months, timeZone } = await ask('lead:recurrence', year);
  expect(timeZone).toBe('Pacific/Auckland');
  expect(months).toMatchObject([{ month: '2026-03', count: 1 }]);
  // A shop elsewhere than its machine says so, and its days and months follow.
  await ask('lead:save-time-zone', { timeZone: 'Europe/Berlin' });
  expect((await ask('lead:recurrence', year)).months).toMatchObject([{ month: '2026-02', count: 1 }]);
  expect((await ask('lead:recurrence', { fromDay: '2026-03-01' })).caseCount).toBe(0);
  await expect(ask('lead:save-time-zone', { timeZone: 'Europe/Nowhere' })).rejects.toThrow('no time zone');
  await expect(ask('lead:recurrence', { fromDay: '2026-03-02', toDay: '2026-03-01' })).rejects.toThrow(
    'first day lies after',
  );
});
