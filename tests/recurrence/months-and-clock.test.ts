import { describe, expect, it } from 'vitest';
import { monthlyRates } from '../../src-core/recurrence/monthly-rates.ts';
import { printedStretches, workingClock, type HourReading } from '../../src-core/recurrence/print-hours.ts';
import { dayAfter, isTimeZone, nextMonth, shopCalendar } from '../../src-core/recurrence/shop-calendar.ts';
import { spacingOf, whenChanged } from '../../src-core/recurrence/when-changed.ts';

const HOUR_MS = 3_600_000;
const reading = (at: string, totalHours: number, printerId = 'P'): HourReading => ({
  printerId,
  at,
  totalHours,
});

describe('the shop’s calendar', () => {
  it('knows what day and hour it is there', () => {
    const auckland = shopCalendar('Pacific/Auckland');
    expect(auckland.wallTime(Date.parse('2026-02-28T11:30:00Z'))).toEqual({ day: '2026-03-01', hour: 0 });
    expect(shopCalendar('America/New_York').wallTime(Date.parse('2026-03-01T04:30:00Z'))).toEqual({
      day: '2026-02-28',
      hour: 23,
    });
  });

  it.each([
    ['Europe/Berlin', '2026-03-29', '2026-03-28T23:00:00.000Z'],
    ['Europe/Berlin', '2026-03-30', '2026-03-29T22:00:00.000Z'],
    ['Pacific/Auckland', '2026-03-01', '2026-02-28T11:00:00.000Z'],
    ['Asia/Kathmandu', '2026-11-01', '2026-10-31T18:15:00.000Z'],
    // The clocks go forward at midnight: the day begins at one o'clock.
    ['America/Santiago', '2026-09-06', '2026-09-06T04:00:00.000Z'],
    ['UTC', '2026-01-01', '2026-01-01T00:00:00.000Z'],
  ])('in %s the day %s begins at %s', (zone, day, begins) => {
    expect(new Date(shopCalendar(zone).startOf(day)).toISOString()).toBe(begins);
  });

  it('counts days and months on', () => {
    expect(dayAfter('2026-02-28', 1)).toBe('2026-03-01');
    expect(dayAfter('2026-03-01', -1)).toBe('2026-02-28');
    expect(nextMonth('2026-12')).toBe('2027-01');
    expect(isTimeZone('Europe/Berlin')).toBe(true);
    expect(isTimeZone('Europe/Nowhere')).toBe(false);
  });
});

describe('cases by month', () => {
  const calendar = shopCalendar('Pacific/Auckland');
  const from = calendar.startOf('2026-01-01');
  const to = calendar.startOf('2027-01-01');

  it('a case of the first minutes of a month counts in that month, with the hours of that month', () => {
    const stretches = [
      ...printedStretches([
        reading('2026-01-31T11:00:00Z', 0),
        reading('2026-03-31T11:00:00Z', 590),
      ]).values(),
    ].flat();
    const { months } = monthlyRates(
      [{ openedMs: Date.parse('2026-02-28T11:30:00Z'), minutesLost: 7 }],
      stretches,
      calendar,
      from,
      to,
    );
    expect(months.map(({ month, count }) => [month, count])).toEqual([
      ['2026-02', 0],
      ['2026-03', 1],
      ['2026-04', 0],
    ]);
    expect(months[0]?.printHours).toBeCloseTo(28 * 10, 6);
    expect(months.reduce((sum, one) => sum + one.printHours, 0)).toBeCloseTo(590, 6);
  });

  it('a month far above the others is out, one without hours has no rate', () => {
    const stretches = [
      ...printedStretches([
        reading('2026-01-01T00:00:00Z', 0),
        reading('2026-10-01T00:00:00Z', 2700),
      ]).values(),
    ].flat();
    const opened = (month: number, count: number) =>
      Array.from({ length: count }, (_, i) => ({ openedMs: Date.UTC(2026, month, 5 + i), minutesLost: 1 }));
    const { months, centre } = monthlyRates(
      [...opened(1, 2), ...opened(3, 20), ...opened(5, 2), ...opened(11, 1)],
      stretches,
      calendar,
      from,
      to,
    );
    expect(months.filter(({ isOut }) => isOut).map(({ month }) => month)).toEqual(['2026-04']);
    expect(months.find(({ month }) => month === '2026-12')).toMatchObject({
      count: 1,
      rate: null,
      isOut: false,
    });
    expect(centre).toBeCloseTo(24 / 2700, 3);
  });

  it('is empty where there is nothing', () => {
    expect(monthlyRates([], [], calendar, from, to)).toEqual({ months: [], centre: null });
  });
});

describe('the clock of printing', () => {
  it('stands still while nothing is printed, and leads back to the time', () => {
    const start = Date.parse('2026-01-01T00:00:00Z');
    const stretches = [
      { fromMs: start, toMs: start + 100 * HOUR_MS, hours: 50 },
      { fromMs: start + 200 * HOUR_MS, toMs: start + 300 * HOUR_MS, hours: 100 },
    ];
    const clock = workingClock(stretches, start, start + 400 * HOUR_MS);
    expect(clock.totalHours).toBeCloseTo(150, 9);
    expect(clock.hoursAt(start + 50 * HOUR_MS)).toBeCloseTo(25, 9);
    expect(clock.hoursAt(start + 150 * HOUR_MS)).toBeCloseTo(50, 9);
    expect(clock.hoursAt(start + 400 * HOUR_MS)).toBeCloseTo(150, 9);
    expect(clock.msAt(100)).toBeCloseTo(start + 250 * HOUR_MS, 0);
  });

  it('dates a change, and tells how far apart cases lie', () => {
    const day = 24 * HOUR_MS;
    const clock = workingClock([{ fromMs: 0, toMs: 200 * day, hours: 2000 }], 0, 200 * day);
    const times = [...Array.from({ length: 20 }, (_, i) => i * 5 * day), 130 * day, 190 * day];
    const change = whenChanged(times, clock);
    expect(change?.ratioHigh).toBeLessThan(1);
    expect(change?.fromMs).toBeLessThanOrEqual(100 * day);
    expect(change?.toMs).toBeGreaterThanOrEqual(100 * day);
    expect(spacingOf(times, clock)).toMatchObject({ isUnusuallyQuiet: false });
    expect(spacingOf(times, clock)?.meanHours).toBeCloseTo(2000 / 22, 9);
    const stopped = spacingOf(times.slice(0, 20), clock);
    expect(stopped?.isUnusuallyQuiet).toBe(true);
    expect(stopped?.hoursSinceLast).toBeCloseTo(1050, 6);
    expect(spacingOf([5], clock)).toBeNull();
    expect(whenChanged([5, 6], clock)).toBeNull();
  });
});
