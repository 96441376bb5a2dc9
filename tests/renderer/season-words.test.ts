import { describe, expect, it } from 'vitest';
import type { Season } from '../../src-core/contract/season-view.ts';
import {
  halvesWords,
  humidityWords,
  missingWords,
  perThousandWords,
  seasonMethod,
  seasonVerdict,
} from '../../src-renderer/wording/season-words.ts';

const month = {
  month: '2026-03',
  percentRh: 62,
  source: 'entered' as const,
  moisture: 2,
  rest: 5,
  printHours: 400,
};
const season: Season = {
  revision: 1,
  months: [month, { ...month, month: '2026-04', percentRh: null, source: 'missing' }],
  against: 'print-hours',
  used: 8,
  verdict: 'with-humidity',
  needed: { months: 6, cases: 5 },
  moisture: { coefficient: 0.81, chance: 0.004, isExact: true },
  rest: { coefficient: -0.1, chance: 0.8, isExact: true },
  halves: {
    above: 55,
    damp: { months: 4, count: 12, printHours: 1900 },
    dry: { months: 4, count: 3, printHours: 2000 },
    ratio: 4.21,
    low: 1.1,
    high: 23.2,
  },
};

describe('season and humidity, in words', () => {
  it('says what may be concluded, and when it cannot be told yet', () => {
    expect(seasonVerdict(season)).toBe(
      'Moisture-related cases were more frequent in damp months, more than chance explains.',
    );
    expect(seasonVerdict({ ...season, verdict: 'few-months', used: 3 })).toBe(
      'It cannot be told yet: 3 of the 6 months that it takes have a humidity and print hours.',
    );
    expect(seasonVerdict({ ...season, verdict: 'few-cases' })).toContain(
      '4 cases with moisture as the cause, of the 5',
    );
    expect(seasonVerdict({ ...season, verdict: 'chance', against: 'cases' })).toContain('among all cases');
    // Enough of them, but not in months that can be used.
    const elsewhere = [month, { ...month, month: '2026-04', moisture: 3, printHours: 0 }];
    expect(seasonVerdict({ ...season, verdict: 'few-cases', months: elsewhere })).toBe(
      'It cannot be told yet: of 5 cases with moisture as the cause 2 came in months with a humidity and print hours; it takes 5.',
    );
    expect(
      seasonVerdict({ ...season, verdict: 'few-cases', months: [...season.months, ...season.months] }),
    ).toContain('of 8 cases with moisture as the cause 4 came in months');
  });

  it('puts damp and dry months side by side with limits', () => {
    expect(halvesWords(season)).toBe(
      'Months above 55 % humidity: 12 cases in 1,900 print hours; the others: 3 cases in 2,000 print hours. In the damper months that is 4.2 times as often (1.1 to 23 with 95 % confidence).',
    );
    const none = season.halves && { ...season.halves, ratio: null, high: null };
    expect(halvesWords({ halves: none })).toContain(
      'Every one came in the damper months (at least 1.1 times',
    );
    expect(halvesWords({ halves: null })).toBeNull();
  });

  it('names the months that miss a figure, typical figures, and the method under Details', () => {
    expect(missingWords(season)).toBe('Humidity is missing for Apr 2026.');
    expect(missingWords({ months: season.months.slice(0, 1) })).toBeNull();
    const missing = season.months.filter(({ source }) => source === 'missing');
    const six = {
      months: [...season.months.slice(0, 1), ...Array.from({ length: 6 }, () => missing).flat()],
    };
    expect(missingWords(six)).toMatch(/^Humidity is missing for (?:Apr 2026, ){3}Apr 2026 and 2 more\.$/);
    expect(missingWords({ months: season.months.slice(1) })).toBe(
      'No humidity is on record for any of these months.',
    );
    expect(humidityWords({ percentRh: 50, source: 'typical' })).toBe('50 %, typical');
    expect(seasonMethod(season)).toMatch(/Spearman.*over 8 months: 0\.81, .*others?.*−0\.10/);
    expect(seasonMethod({ ...season, moisture: null })).toBeNull();
    expect([perThousandWords(2, 400), perThousandWords(2, 0)]).toEqual(['5.0', '–']);
  });
});
