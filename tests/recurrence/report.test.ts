import { expect, it } from 'vitest';
import { recurrenceReport, type ClosedCase, type ReportParts } from '../../src-core/recurrence/report.ts';
import { withUsualHours } from '../../src-core/recurrence/usual-hours.ts';
import { shopCalendar } from '../../src-core/recurrence/shop-calendar.ts';
import { seededRandom } from '../../src-core/training/seeded-random.ts';

const FROM = Date.parse('2026-01-01T00:00:00Z');
const DAY_MS = 24 * 3_600_000;
const printers = ['A', 'B', 'C'];

function parts(cases: readonly ClosedCase[], more: Partial<ReportParts> = {}): ReportParts {
  return {
    by: 'printer',
    cases,
    stretches: new Map(
      printers.map((id) => [id, [{ fromMs: FROM, toMs: FROM + 360 * DAY_MS, hours: 3000 }]]),
    ),
    estimated: new Set(),
    usualHours: {},
    printersOf: new Map(printers.map((id) => [id, [id]])),
    calendar: shopCalendar('UTC'),
    fromMs: FROM,
    toMs: FROM + 365 * DAY_MS,
    moneyPerMinute: null,
    currency: null,
    whereLabel: (where) => where,
    whatLabel: (what) => what,
    printerLabel: (id) => `printer ${id}`,
    practicesOf: () => [],
    practice: () => undefined,
    ...more,
  };
}

const caseAt = (day: number, where: string, causes: readonly string[] = ['clog']): ClosedCase => ({
  openedMs: FROM + day * DAY_MS,
  printerId: where,
  causes,
  practice: null,
  minutesLost: 60,
  gramsScrapped: 10,
  where,
});

it('what stands out is dated, and what became rarer is said to have got better', () => {
  const cases = [
    // A clogs every third day until the middle of May, then hardly any more.
    ...Array.from({ length: 45 }, (_, i) => caseAt(3 * i, 'A')),
    caseAt(250, 'A'),
    ...Array.from({ length: 6 }, (_, i) => caseAt(25 + 55 * i, 'B')),
    ...Array.from({ length: 5 }, (_, i) => caseAt(40 + 60 * i, 'C', ['wet', 'clog'])),
  ];
  const found = recurrenceReport(parts(cases));
  const [first] = found.rows;
  expect(first).toMatchObject({ where: 'A', count: 46, standing: 'stands-out' });
  expect(first?.since?.ratioHigh).toBeLessThan(1);
  expect((first?.since?.firstDay ?? '') <= '2026-05-15').toBe(true);
  expect((first?.since?.lastDay ?? '') >= '2026-05-15').toBe(true);
  expect(found.better.map(({ label, kind }) => [label, kind])).toContainEqual(['printer A', 'printer']);
  expect(found.groups.map(({ id, count, printHours }) => [id, count, printHours])).toEqual([
    ['A', 46, 3000],
    ['B', 6, 3000],
    ['C', 5, 3000],
  ]);
  // A case with two causes counts for both, and once in the whole.
  expect(found.causes.map(({ id, count }) => [id, count])).toEqual([
    ['clog', 57],
    ['wet', 5],
  ]);
  expect(found.caseCount).toBe(57);
  expect(found.rows.find(({ where, what }) => where === 'C' && what === 'wet')?.standing).not.toBe(
    'could-be-chance',
  );
});

it('money follows from minutes, and habits are held against hours as causes are', () => {
  const cases = [1, 2, 3].map((day) => ({ ...caseAt(day, 'A'), practice: 'in-a-hurry' }));
  const found = recurrenceReport(
    parts([...cases, caseAt(9, 'B')], {
      by: 'practice',
      moneyPerMinute: 2,
      currency: 'EUR',
      practice: () => ({ label: 'In a hurry', better: 'Take your time' }),
    }),
  );
  expect(found.money).toBe(480);
  expect(found.rows).toMatchObject([{ where: 'A', what: 'in-a-hurry', count: 3, exposure: 3000 }]);
});

it('a casebook of a hundred thousand cases is taken in one go', () => {
  const random = seededRandom(7);
  const cases = Array.from({ length: 100_000 }, () =>
    caseAt(random() * 360, printers[Math.floor(random() * 3)] ?? 'A', [`cause-${Math.floor(random() * 30)}`]),
  );
  const found = recurrenceReport(parts(cases));
  expect(found.caseCount).toBe(100_000);
  expect(found.months.reduce((sum, one) => sum + one.count, 0)).toBe(100_000);
  expect(found.rows.length).toBe(3 * 31);
});

it('where nobody reads a meter, shares of cases are compared; what has no reading beside others that have is counted and said', () => {
  const cases = [
    ...Array.from({ length: 8 }, (_, n) => caseAt(n, 'A')),
    ...Array.from({ length: 8 }, (_, n) => caseAt(n + 20, 'B', ['drift'])),
  ];
  const none = recurrenceReport(parts(cases, { stretches: new Map() }));
  expect([none.exposure, none.withoutHours, none.rows.length]).toEqual(['cases', 0, 2]);
  // Fisher's exact test by hand: 8 of 8 against 0 of 8, 1 in 16 over 8 = 12,870.
  expect(none.rows[0]?.chance).toBeCloseTo(1 / 12_870, 12);
  const stretches = new Map([['A', [{ fromMs: FROM, toMs: FROM + 360 * DAY_MS, hours: 3000 }]]]);
  const some = recurrenceReport(parts(cases, { stretches }));
  expect([some.exposure, some.withoutHours]).toEqual(['print-hours', 8]);
});

it('what nobody reads off a meter is estimated by the usual week, and said to be an estimate', () => {
  const cases = [...Array.from({ length: 8 }, (_, n) => caseAt(n, 'A')), caseAt(3, 'B'), caseAt(5, 'C')];
  const read = new Map([['A', [{ fromMs: FROM, toMs: FROM + 360 * DAY_MS, hours: 3000 }]]]);
  const usual = [
    // Read all the same: what was said does not count.
    { printerId: 'A', hoursPerWeek: 10, sinceMs: FROM },
    { printerId: 'B', hoursPerWeek: 35, sinceMs: FROM + 5 * DAY_MS },
  ];
  const printed = withUsualHours(read, usual, FROM + 365 * DAY_MS);
  const usualHours = { A: 10, B: 35 };
  const found = recurrenceReport(parts(cases, { ...printed, usualHours }));
  // 360 days of five hours each.
  expect([found.printHours, found.estimatedHours].map(Math.round)).toEqual([4800, 1800]);
  const row = (where: string) => found.rows.find((one) => one.where === where && one.what === 'clog');
  expect([row('A')?.isEstimated, row('B')?.isEstimated]).toEqual([false, true]);
  expect(row('B')?.rate).toBeCloseTo(1000 / 1800, 9);
  expect(found.unread).toEqual([
    { printerId: 'B', label: 'printer B', cases: 1, hoursPerWeek: 35 },
    { printerId: 'C', label: 'printer C', cases: 1, hoursPerWeek: null },
  ]);
  expect(found.withoutHours).toBe(1);
});

it('a usual week says nothing of a printer that is in use for less', () => {
  const usual = [{ printerId: 'B', hoursPerWeek: 35, sinceMs: FROM }];
  const after = (days: number) => withUsualHours(new Map(), usual, FROM + days * DAY_MS);
  expect([after(0.001), after(6.9)].map(({ estimated }) => estimated.size)).toEqual([0, 0]);
  expect(after(7).stretches.get('B')).toMatchObject([{ hours: 35 }]);
});

it('nothing at all is said of nothing', () => {
  const found = recurrenceReport(parts([], { stretches: new Map() }));
  expect(found).toMatchObject({
    rows: [],
    months: [],
    better: [],
    printHours: 0,
    caseCount: 0,
    centre: null,
  });
});
