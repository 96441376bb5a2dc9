import { describe, expect, it } from 'vitest';
import { faultOfPeriod, periodDays, periodRange, type Period } from '../../src-renderer/wording/period.ts';

const now = new Date(2026, 10, 25, 15, 30);
const range = (kind: Period['kind'], fromDay = '', toDay = '') => periodRange({ kind, fromDay, toDay }, now);

describe('a period', () => {
  it('reaches to the end of today', () => {
    expect(range('months3').to).toEqual(new Date(2026, 10, 26));
  });

  it('begins on the same day so many months before', () => {
    expect(range('months3').from).toEqual(new Date(2026, 7, 25));
    expect(range('months12').from).toEqual(new Date(2025, 10, 25));
  });

  it('begins on the last day of a month that is too short', () => {
    const may31 = new Date(2026, 4, 31);
    expect(periodRange({ kind: 'months3', fromDay: '', toDay: '' }, may31).from).toEqual(
      new Date(2026, 1, 28),
    );
  });

  it('counts today among the last 30 days', () => {
    expect(range('days30').from).toEqual(new Date(2026, 9, 27));
  });

  it('takes both days chosen by hand whole, and open ends as open', () => {
    expect(range('dates', '2026-03-01', '2026-03-31')).toEqual({
      from: new Date(2026, 2, 1),
      to: new Date(2026, 3, 1),
    });
    expect(range('dates', '2026-03-01', '')).toEqual({ from: new Date(2026, 2, 1), to: null });
    expect(range('all')).toEqual({ from: null, to: null });
  });

  it('is told in days, the last of them included', () => {
    expect(periodDays({ kind: 'months3', fromDay: '', toDay: '' }, now)).toEqual({
      fromDay: '2026-08-25',
      toDay: '2026-11-25',
    });
    expect(periodDays({ kind: 'dates', fromDay: '2026-03-01', toDay: '2026-03-31' }, now)).toEqual({
      fromDay: '2026-03-01',
      toDay: '2026-03-31',
    });
    expect(periodDays({ kind: 'all', fromDay: '', toDay: '' }, now)).toEqual({ fromDay: null, toDay: null });
  });

  it('says when its days are the wrong way round', () => {
    expect(faultOfPeriod({ kind: 'dates', fromDay: '2026-03-02', toDay: '2026-03-01' })).toMatch(/after/);
    expect(faultOfPeriod({ kind: 'dates', fromDay: '2026-03-01', toDay: '2026-03-01' })).toBeNull();
  });
});
