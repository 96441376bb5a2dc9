import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printHoursBetween, type HourReading } from '../../src-core/recurrence/print-hours.ts';

const YEAR = { from: '2026-01-01T00:00:00Z', to: '2027-01-01T00:00:00Z' };

function hoursOf(readings: readonly (readonly [month: number, hours: number, kind?: HourReading['kind']])[]) {
  const own = readings.map(([month, totalHours, kind = 'read']) => ({
    printerId: 'P',
    at: `2026-${String(month).padStart(2, '0')}-01T00:00:00Z`,
    totalHours,
    kind,
  }));
  return printHoursBetween(own, YEAR.from, YEAR.to).get('P');
}

describe('A1: a printer’s meter', () => {
  it('a correction takes back what was mistyped; a reset begins again', () => {
    expect(
      hoursOf([
        [1, 12_000],
        [2, 12_100],
        [3, 5, 'reset'],
        [4, 105],
      ]),
    ).toBeCloseTo(205, 9);
    expect(
      hoursOf([
        [1, 1_000],
        [2, 12_100],
        [3, 1_105, 'corrected'],
      ]),
    ).toBeCloseTo(105, 9);
    // Corrected upwards, or where nothing was above it: as any reading.
    expect(
      hoursOf([
        [1, 1_000],
        [2, 1_100, 'corrected'],
      ]),
    ).toBeCloseTo(100, 9);
  });

  it('a correction after a reset leaves what was printed before the reset', () => {
    expect(
      hoursOf([
        [1, 12_000],
        [2, 12_100],
        [3, 5, 'reset'],
        [4, 9_000],
        [5, 80, 'corrected'],
      ]),
    ).toBeCloseTo(180, 9);
    // The reset itself was mistyped.
    expect(
      hoursOf([
        [1, 12_000],
        [2, 12_100],
        [3, 500, 'reset'],
        [4, 50, 'corrected'],
      ]),
    ).toBeCloseTo(150, 9);
  });

  it('a fall in an older casebook, of which nothing is said, counts as a reset', () => {
    expect(
      hoursOf([
        [1, 12_000],
        [2, 12_100],
        [3, 5],
        [4, 105],
      ]),
    ).toBeCloseTo(205, 9);
  });

  it('never counts hours below nothing, whatever was entered', () => {
    const entries = fc.array(
      fc.tuple(fc.nat(20_000), fc.constantFrom('read' as const, 'corrected' as const, 'reset' as const)),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(entries, (list) => {
        const hours = hoursOf(list.map(([hours, kind], index) => [index + 1, hours, kind] as const)) ?? 0;
        expect(hours).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});
