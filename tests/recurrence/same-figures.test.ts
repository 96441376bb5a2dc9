import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Recurrence } from '../../src-core/contract/recurrence-view.ts';
import { recurrenceReport } from '../../src-core/recurrence/report.ts';
import { shopCalendar } from '../../src-core/recurrence/shop-calendar.ts';
import { binomialAtLeast } from '../../src-core/statistics/binomial.ts';
import { hypergeometricAtLeast } from '../../src-core/statistics/hypergeometric.ts';
import { logChoose } from '../../src-core/statistics/log-factorial.ts';
import { seededRandom } from '../../src-core/training/seeded-random.ts';
import { fewHundredCases } from './few-hundred-cases.ts';

/**
 * The report of 400 cases as it was worked out before it was made quick (27 November 2026), digit by digit: three groupings, as
 * JSON.
 */
const before = JSON.parse(
  readFileSync(path.join(import.meta.dirname, 'figures-before.json'), 'utf8'),
) as Record<'printer' | 'material' | 'practice', Recurrence>;

/** To twelve digits, without the leaning rates and what was not there then. */
function toTwelveDigits(figures: unknown): unknown {
  return JSON.parse(
    JSON.stringify(figures, (name, one: unknown) =>
      name === 'isEstimated'
        ? undefined
        : name === 'leaningRate'
          ? null
          : typeof one === 'number'
            ? Number(one.toPrecision(12))
            : one,
    ),
  );
}

describe('the quick way gives the figures of the plain one', () => {
  it.each(['printer', 'material', 'practice'] as const)('to twelve digits, by %s', (by) => {
    const now = recurrenceReport(fewHundredCases(shopCalendar('Europe/Berlin'), by));
    expect(now.rows.length).toBeGreaterThanOrEqual(10);
    for (const [name, figures] of Object.entries(before[by]))
      expect(toTwelveDigits(now[name as keyof Recurrence]), name).toEqual(toTwelveDigits(figures));
    // Leaning rates are the place of a flat maximum that is searched for: as near as the search comes.
    for (const [at, { leaningRate }] of now.rows.entries()) {
      const then = before[by].rows[at]?.leaningRate ?? null;
      expect(Math.abs((leaningRate ?? 0) - (then ?? 0))).toBeLessThanOrEqual(1e-7 * (then ?? 0));
    }
    // All others are the same in every bit.
    const exact = (rows: Recurrence['rows']) =>
      JSON.parse(
        JSON.stringify(rows.map((row) => ({ ...row, leaningRate: null, isEstimated: false }))),
      ) as unknown;
    expect(exact(now.rows)).toEqual(exact(before[by].rows));
  });

  it('and tails that end early are those summed to the last term', () => {
    const random = seededRandom(5);
    for (let round = 0; round < 400; round++) {
      const trials = Math.floor(random() * 3000) + 1;
      const count = Math.floor(random() ** 2 * trials) + 1;
      const share = random();
      let all = 0;
      for (let k = count; k <= trials; k++)
        all += Math.exp(logChoose(trials, k) + k * Math.log(share) + (trials - k) * Math.log1p(-share));
      expect(binomialAtLeast(count, trials, share)).toBe(Math.min(1, all));
      const marked = Math.floor(random() * trials);
      const drawn = Math.floor(random() * trials);
      const least = Math.max(1, drawn + marked - trials + 1);
      const most = Math.min(drawn, marked);
      const hits = least + Math.floor(random() * (most - least + 1));
      let tail = 0;
      for (let k = hits; k <= most; k++)
        tail += Math.exp(
          logChoose(marked, k) + logChoose(trials - marked, drawn - k) - logChoose(trials, drawn),
        );
      if (hits <= most) expect(hypergeometricAtLeast(hits, drawn, marked, trials)).toBe(Math.min(1, tail));
    }
  });
});
