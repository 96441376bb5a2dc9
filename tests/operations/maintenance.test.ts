import { inEnglish } from '../../src-core/words/in-english.ts';
import { describe, expect, it } from 'vitest';
import type { InputOf } from '../../src-core/contract/calls.ts';
import { logSpool, programInMemory, type TestProgram } from './program-in-memory.ts';

const DAY = 24 * 60;
const complaints = [{ observation: 'stringing', value: 'slight' }];

async function shop() {
  const test = await programInMemory();
  const saved = await test.ask('shop:save-printer', {
    label: 'Heron',
    model: 'Large',
    conditions: { 'nozzle-material': 'brass', 'abrasive-hours': 999 },
    printHours: 1000,
  });
  const printer = saved.printers[0];
  if (!printer) throw new Error('no printer');
  const printerId = printer.id;
  const own = async () => {
    const found = (await test.ask('maintenance:list', {})).printers[0];
    if (!found) throw new Error('no maintenance');
    return found;
  };
  const log = async (event: InputOf<'maintenance:log'>['event'], at: string | null = null) =>
    test.ask('maintenance:log', { printerId, event, at, revision: (await own()).revision });
  const task = async (id: string) => (await own()).tasks.find((one) => one.task === id);
  return { ...test, printerId, own, log, task };
}

describe('maintenance', () => {
  it('is done with one tap, with part and reading after it, and taken back with its reading', async () => {
    const { ask, pass, log, task, printerId } = await shop();
    pass(50 * DAY);
    await log({ kind: 'counters-read', reading: { printHours: 1500, prints: 40 } });
    expect(await task('replace-nozzle')).toMatchObject({ due: 'later', last: null, limits: [{ used: 500 }] });
    pass(DAY);
    await log({ kind: 'done', task: 'replace-nozzle' });
    await log({ kind: 'detailed', of: 2, part: '0.4 brass', by: 'JO', reading: { printHours: 1520 } });
    expect(await task('replace-nozzle')).toMatchObject({
      last: { part: '0.4 brass' },
      limits: [{ used: 0 }],
    });
    const hours = async () => (await ask('shop:read', {})).printers[0]?.printHours;
    expect(await hours()).toBe(1520);
    await log({ kind: 'undone', of: 2 });
    expect(await hours()).toBe(1500);
    expect(await task('replace-nozzle')).toMatchObject({ last: null });
    const { entries, counters } = await ask('maintenance:history', { printerId });
    expect(entries.map(({ label, isUndone }) => [inEnglish(label), isUndone])).toEqual([
      ['Replace the nozzle', true],
      ['Counters read', false],
    ]);
    expect(counters).toEqual({ printHours: 1500, prints: 40, metres: null });
  });

  it('refuses what cannot be: a meter that runs back, a time to come, an unknown task, an entry that is gone', async () => {
    const { log, pass } = await shop();
    pass(DAY);
    await expect(log({ kind: 'done', task: 'check-belts', reading: { printHours: 900 } })).rejects.toThrow(
      'stood at 1,000 h before that',
    );
    await expect(log({ kind: 'done', task: 'check-belts' }, '2027-01-01T00:00:00Z')).rejects.toThrow(
      'not come yet',
    );
    await expect(log({ kind: 'done', task: 'polish-it' })).rejects.toThrow('no maintenance task "polish-it"');
    await expect(log({ kind: 'undone', of: 3 })).rejects.toThrow('not in the log');
    await log({ kind: 'done', task: 'check-belts' });
  });

  it('two taps at once count once', async () => {
    const { dispatcher, printerId, own } = await shop();
    const input = { printerId, event: { kind: 'done', task: 'check-belts' }, revision: 0 } as const;
    const replies = await Promise.all([1, 2].map(() => dispatcher.call('maintenance:log', input)));
    expect(replies.map((reply) => (reply.ok ? 'ok' : reply.error.code)).sort()).toEqual(['ok', 'stale']);
    expect((await own()).revision).toBe(1);
  });

  it('is set by the shop for a model, and a plan that was changed meanwhile is not written over', async () => {
    const { ask, task } = await shop();
    const plan = { rules: [{ model: 'large', task: 'check-belts', label: null, every: { days: 5 } }] };
    await ask('maintenance:save-plan', { plan, revision: 0 });
    expect(await task('check-belts')).toMatchObject({ limits: [{ unit: 'days', every: 5 }] });
    await expect(ask('maintenance:save-plan', { plan: { rules: [] }, revision: 0 })).rejects.toThrow('stale');
    const unknown = { rules: [{ model: '', task: 'own-lamp', label: null, every: { days: 5 } }] };
    await expect(ask('maintenance:save-plan', { plan: unknown, revision: 1 })).rejects.toThrow(
      'a name of your own',
    );
  });

  it('tells a case what follows from its dates, with the reason, and never what was typed once', async () => {
    const { ask, pass, log, printerId } = await shop();
    const opened = async () => {
      const view = await ask('case:open', { printerId, complaints });
      return new Map(view.conditions.map((one) => [one.id, one]));
    };
    expect((await opened()).get('abrasive-hours')?.value ?? null).toBeNull();
    await log({ kind: 'done', task: 'replace-nozzle' });
    await log({ kind: 'done', task: 'grease-rails' });
    const { spools } = await ask('shop:save-spool', {
      label: 'N-01',
      polymer: 'pa12',
      filler: 'carbon-fibre',
      fillerPercent: 15,
    });
    await logSpool(ask, {
      spoolId: spools[0]?.id ?? '',
      event: { kind: 'moved', place: 'on-printer', printerId },
    });
    pass(30 * DAY);
    await log({ kind: 'counters-read', reading: { printHours: 1240 } });
    const conditions = await opened();
    expect(conditions.get('nozzle-hours')?.value).toBe(240);
    expect(conditions.get('abrasive-hours')?.value).toBe(240);
    expect(conditions.get('lubrication-days')?.value).toBe(30);
    const told = (await ask('maintenance:history', { printerId })).conditions;
    expect(inEnglish(told.find((one) => one.condition === 'nozzle-hours')?.because ?? '')).toMatch(
      /last done on 2 Mar 2026/,
    );
    // Four times its 60 hours.
    const nozzle = (await ask('maintenance:list', {})).printers[0]?.tasks.find(
      (one) => one.task === 'replace-nozzle',
    );
    expect(nozzle).toMatchObject({ due: 'overdue', share: 4 });
  });

  it('proposes nothing for a printer under a danger sign', async () => {
    const { ask, printerId, own } = await shop();
    const { caseId } = await ask('case:open', { printerId, complaints });
    await ask('case:send', {
      caseId,
      revision: 1,
      event: { kind: 'danger-answered', present: ['smoke-or-burning-smell'] },
    });
    expect((await own()).isInDanger).toBe(true);
  });

  it('is held against the cases that it keeps away, before and after', async () => {
    const { ask, pass, log, printerId } = await shop();
    const wet = async (test: Pick<TestProgram, 'ask'>) => {
      const { caseId } = await test.ask('case:open', { printerId, complaints });
      await test.ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
      await test.ask('case:send', {
        caseId,
        revision: 2,
        event: {
          kind: 'closed',
          causes: [{ cause: 'belt-loose' }],
          practice: null,
          minutesLost: 10,
          gramsScrapped: 5,
          note: '',
        },
      });
    };
    for (let week = 0; week < 8; week++) {
      pass(7 * DAY);
      await wet({ ask });
    }
    pass(DAY);
    await log({ kind: 'done', task: 'check-belts', reading: { printHours: 1500 } });
    pass(100 * DAY);
    await log({ kind: 'counters-read', reading: { printHours: 2500 } });
    const { entries } = await ask('maintenance:history', { printerId });
    const belts = entries.find((one) => one.task === 'check-belts');
    expect(belts?.effectOf).toContain('Belt is loose');
    expect(belts?.effect).toMatchObject({
      before: { count: 8, hours: 500 },
      after: { count: 0, hours: 1000 },
      verdict: 'helped',
    });
    // Eight before and none after: P(all eight fall into a third of the hours) = (1/3)^8.
    expect(belts?.effect?.high).toBeLessThan(1);
  });
});
