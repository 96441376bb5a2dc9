import { describe, expect, it } from 'vitest';
import { plannedTasks, dueTasks } from '../../src-core/maintenance/due-tasks.ts';
import {
  entriesOf,
  faultOfMaintenance,
  type LoggedMaintenance,
} from '../../src-core/maintenance/maintenance-log.ts';
import { countedConditions } from '../../src-core/maintenance/counted-conditions.ts';
import { usedSince, type PrinterUse } from '../../src-core/maintenance/printer-use.ts';
import { spoolsOnPrinter, weighedWithin } from '../../src-core/maintenance/spools-on-printer.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

const knowledge = shippedKnowledge();
const DAY = 24 * 3_600_000;
const now = Date.parse('2026-06-30T00:00:00Z');
const before = (days: number) => now - days * DAY;
const iso = (ms: number) => new Date(ms).toISOString();
const idle: PrinterUse = { hours: [], prints: [], metres: [], spools: [] };
/** Ten hours a day for the last hundred days. */
const steady: PrinterUse = { ...idle, hours: [{ fromMs: before(100), toMs: now, hours: 1000 }] };
const printer = { model: 'Desk', conditions: { 'nozzle-material': 'brass' } };
const times = { beginMs: before(100), nowMs: now, today: '2026-06-30' };

const done = (seq: number, task: string, daysAgo: number, more: object = {}): LoggedMaintenance => ({
  seq,
  at: iso(before(daysAgo)),
  event: { kind: 'done', task, by: null, part: '', note: '', reading: null, ...more },
});

function dueOf(task: string, log: readonly LoggedMaintenance[], use: PrinterUse, every: object) {
  const planned = [{ task, label: task, isOwn: true, every }];
  return dueTasks(knowledge, planned, entriesOf(log), use, times)[0];
}

describe('when a task is due', () => {
  it('is what comes first of print hours and days, at the pace of late', () => {
    // 300 hours used of 500: 200 are left at 10 a day, 20 days; of 40 days 10 are left.
    expect(dueOf('oil', [done(1, 'oil', 30)], steady, { hours: 500, days: 40 })).toMatchObject({
      due: 'later',
      dueOn: '2026-07-10',
      share: 0.75,
      limits: [
        { unit: 'hours', used: 300, every: 500 },
        { unit: 'days', used: 30, every: 40 },
      ],
    });
    expect(dueOf('oil', [done(1, 'oil', 30)], steady, { hours: 350 })).toMatchObject({ due: 'this-week' });
    expect(dueOf('oil', [done(1, 'oil', 30)], steady, { hours: 300 })).toMatchObject({ due: 'overdue' });
  });

  it('is counted from the first reading where it was never logged, and from the last time however late it was written', () => {
    expect(dueOf('oil', [], steady, { hours: 5000 })).toMatchObject({ last: null, limits: [{ used: 1000 }] });
    const written = [done(1, 'oil', 10), done(2, 'oil', 50)];
    expect(dueOf('oil', written, steady, { hours: 5000 })?.last?.seq).toBe(1);
  });

  it('is not told where no counter says anything', () => {
    expect(dueOf('oil', [], idle, { prints: 100 })).toMatchObject({ due: 'not-counted', dueOn: null });
  });

  it('goes on at the pace of before where the meter was not read of late, and says so', () => {
    const unread = { ...idle, hours: [{ fromMs: before(110), toMs: before(10), hours: 1000 }] };
    expect(usedSince(knowledge, unread, 'hours', before(20), now)).toEqual({
      amount: 200,
      perDay: 10,
      isEstimated: true,
    });
    // After two months without a reading nobody can say.
    const lost = { ...idle, hours: [{ fromMs: before(400), toMs: before(300), hours: 1000 }] };
    expect(usedSince(knowledge, lost, 'hours', before(300), now)?.amount).toBe(600);
  });

  it('what was taken back does not count, what was added does', () => {
    const log: LoggedMaintenance[] = [
      done(1, 'oil', 90),
      done(2, 'oil', 5),
      { seq: 3, at: iso(now), event: { kind: 'undone', of: 2 } },
      {
        seq: 4,
        at: iso(now),
        event: { kind: 'detailed', of: 1, by: 'JO', part: 'grease', note: '', reading: null },
      },
    ];
    expect(dueOf('oil', log, steady, { hours: 5000 })?.last).toEqual({
      seq: 1,
      at: iso(before(90)),
      part: 'grease',
    });
    const entries = entriesOf(log);
    expect(inEnglish(faultOfMaintenance(entries, { kind: 'undone', of: 2 }) ?? [])).toMatch(
      'taken back already',
    );
    expect(inEnglish(faultOfMaintenance(entries, { kind: 'undone', of: 9 }) ?? [])).toMatch('not in the log');
  });
});

describe('the plan', () => {
  const every = (
    task: string,
    plan: Parameters<typeof plannedTasks>[1],
    of: Parameters<typeof plannedTasks>[2] = printer,
  ) => plannedTasks(knowledge, plan, of).find((one) => one.task === task)?.every;

  it('is the guide for a machine like this', () => {
    const none = { rules: [] };
    expect(every('replace-nozzle', none)).toEqual({ abrasiveHours: 60, hours: 1000, metres: 8000 });
    const hardened = { model: '', conditions: { 'nozzle-material': 'hardened-steel' } };
    expect(every('replace-nozzle', none, hardened)).toEqual({ abrasiveHours: 800, hours: 3000 });
    expect(every('check-hot-end-tube', none)).toBeUndefined();
    expect(
      every('check-hot-end-tube', none, { model: '', conditions: { 'hot-end': 'lined' } }),
    ).toBeDefined();
  });

  it('is what the shop says of the model, before what it says of all', () => {
    const rules = [
      { model: '', task: 'check-belts', label: null, every: { days: 30 } },
      { model: 'desk', task: 'check-belts', label: null, every: { days: 7 } },
      { model: 'Desk', task: 'grease-rails', label: null, every: null },
      { model: '', task: 'own-tray', label: 'Empty the tray', every: { prints: 5 } },
      { model: 'Other', task: 'own-lamp', label: 'Wipe the lamp', every: { prints: 5 } },
    ];
    expect(every('check-belts', { rules })).toEqual({ days: 7 });
    expect(every('check-belts', { rules }, { ...printer, model: '' })).toEqual({ days: 30 });
    expect(every('grease-rails', { rules })).toBeUndefined();
    expect(every('own-tray', { rules })).toEqual({ prints: 5 });
    expect(every('own-lamp', { rules })).toBeUndefined();
  });
});

describe('abrasive filament', () => {
  const moved = (seq: number, daysAgo: number, on: string | null) => ({
    seq,
    at: iso(before(daysAgo)),
    event: {
      kind: 'moved' as const,
      place: on === null ? 'tub' : 'on-printer',
      desiccant: 'fresh' as const,
      temperatureC: null,
      ...(on !== null && { printerId: on }),
    },
  });
  const carbon = { filler: 'carbon-fibre', log: [moved(1, 50, 'P'), moved(2, 40, null)] };
  const plain = { filler: 'none', log: [moved(1, 100, 'P'), moved(2, 30, 'P')] };

  it('is on from when it was put there until it is moved, or the next spool is put on', () => {
    const stays = (takesOne: boolean) => spoolsOnPrinter('P', [carbon, plain], takesOne, now);
    expect(
      stays(true).map(({ filler, fromMs, toMs }) => [filler, (now - fromMs) / DAY, (now - toMs) / DAY]),
    ).toEqual([
      ['none', 100, 50],
      ['carbon-fibre', 50, 40],
      ['none', 30, 0],
    ]);
    expect(spoolsOnPrinter('Q', [carbon, plain], true, now)).toEqual([]);
    // Ten hours a day: ten days of carbon count twenty times.
    expect(
      weighedWithin(steady.hours, stays(true), before(100), now, (f) => (f === 'none' ? 1 : 20), 1),
    ).toBeCloseTo(900 + 100 * 20, 6);
  });

  it('counts in hours only where most of the hours have a known spool', () => {
    const use = { ...steady, spools: spoolsOnPrinter('P', [carbon, plain], true, now) };
    expect(usedSince(knowledge, use, 'abrasiveHours', before(100), now)?.amount).toBeCloseTo(100, 6);
    const hardlyKnown = { ...steady, spools: spoolsOnPrinter('P', [carbon], true, now) };
    expect(usedSince(knowledge, hardlyKnown, 'abrasiveHours', before(100), now)).toBeNull();
    const metres = { ...use, metres: [{ fromMs: before(100), toMs: now, hours: 2000 }] };
    expect(usedSince(knowledge, metres, 'metres', before(100), now)?.amount).toBeCloseTo(1800 + 200 * 20, 6);
  });

  it('becomes circumstances of a case, with nozzle hours and days since greasing, once these were logged', () => {
    const planned = plannedTasks(knowledge, { rules: [] }, printer);
    const use = { ...steady, spools: spoolsOnPrinter('P', [carbon, plain], true, now) };
    const counted = (log: readonly LoggedMaintenance[]) =>
      Object.fromEntries(
        countedConditions(knowledge, planned, entriesOf(log), use, now).map((one) => [
          one.condition,
          one.value,
        ]),
      );
    expect(counted([])).toEqual({});
    const log = [done(1, 'replace-nozzle', 60), done(2, 'grease-rails', 12)];
    expect(counted(log)).toEqual({ 'nozzle-hours': 600, 'abrasive-hours': 100, 'lubrication-days': 12 });
    // What was serviced last counts only once all of it was: by what lies back furthest.
    const all = [
      ...log,
      done(3, 'check-belts', 80),
      done(4, 'clean-hot-end-fan', 3),
      done(5, 'clean-drive-gear', 9),
    ];
    expect(counted(all)['maintenance-days']).toBe(80);
  });
});
