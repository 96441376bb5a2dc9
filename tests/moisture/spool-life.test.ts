import { inEnglish } from '../../src-core/words/in-english.ts';
import { usualFlowMm3PerS } from '../../src-core/flow/usual-flow.ts';
import { describe, expect, it } from 'vitest';
import type { RoomClimate, SpoolEvent } from '../../src-core/contract/spool-life.ts';
import {
  lifeOfSpool,
  computeSpool,
  undoneSpoolSeqs,
  verdictOn,
  type LoggedSpoolEvent,
  type SpoolMake,
} from '../../src-core/moisture/index.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const BEGIN = Date.parse('2026-03-02T08:00:00.000Z');
const HOUR = 3_600_000;

function make(polymer: string): SpoolMake {
  return {
    polymer,
    filler: 'none',
    fillerPercent: null,
    filamentDiameterMm: 1.75,
    filamentGrams: 1000,
    openedAt: null,
    storage: null,
  };
}

function moved(hours: number, place: string, more: Partial<Extract<SpoolEvent, { kind: 'moved' }>> = {}) {
  return {
    hours,
    event: { kind: 'moved', place, desiccant: 'fresh', temperatureC: null, ...more } as SpoolEvent,
  };
}

function logOf(...entries: { hours: number; event: SpoolEvent }[]): LoggedSpoolEvent[] {
  return entries.map(({ hours, event }, i) => ({
    seq: i + 1,
    at: new Date(BEGIN + hours * HOUR).toISOString(),
    event,
  }));
}

function reckon(
  polymer: string,
  log: LoggedSpoolEvent[],
  hours: number,
  flowMm3PerS: number | null = null,
  climate: RoomClimate = { kind: 'measured', temperatureC: 23, percentRh: 50 },
) {
  return computeSpool({
    knowledge,
    make: make(polymer),
    body: 'plastic',
    log,
    climate,
    question: { flowMm3PerS, dryerTemperatureC: null, isDryAir: false, targetPercent: null },
    nowMs: BEGIN + hours * HOUR,
  });
}

describe('the life of a spool', () => {
  const week = 168;
  const opened = logOf(moved(0, 'open'));

  // Common practice: a week-old open ABS spool prints well through 0.4 mm and shows water through 0.8 mm.
  it('a week in the open: ABS is a case for 0.8 mm more than for 0.4 mm', () => {
    const fine = reckon('abs', opened, week, usualFlowMm3PerS(knowledge.melting, 0.4)).water;
    const troubled = reckon('abs', opened, week, usualFlowMm3PerS(knowledge.melting, 0.8)).water;
    expect(fine?.verdict).toBe('near-limit');
    expect(['over-limit', 'far-over-limit']).toContain(troubled?.verdict);
    expect(troubled?.chanceOverLimit).toBeGreaterThan(1.5 * (fine?.chanceOverLimit ?? 1));
  });

  // Common practice: nylon is ruined in a day or two in a humid room.
  it('two days in a humid room: nylon is over its limit', () => {
    const damp: RoomClimate = { kind: 'measured', temperatureC: 25, percentRh: 70 };
    const { water } = reckon('pa6', opened, 48, null, damp);
    expect(['over-limit', 'far-over-limit']).toContain(water?.verdict);
  });

  // Common practice, the storage ladder: open is worst, a bag the minimum, a gasketed tub better.
  it('after two months the open is wettest, then the bag, then the tub', () => {
    const after = (place: string) => reckon('petg', logOf(moved(0, place)), 1440).water?.outer.likely ?? NaN;
    expect(after('open')).toBeGreaterThan(after('bag'));
    expect(after('bag')).toBeGreaterThan(after('tub'));
  });

  it('spent desiccant is worse than fresh, and never damper than the room', () => {
    const after = (desiccant: 'fresh' | 'spent', percentRh: number) =>
      reckon('petg', logOf(moved(0, 'tub', { desiccant })), 1440, null, {
        kind: 'measured',
        temperatureC: 23,
        percentRh,
      }).water?.outer.likely ?? NaN;
    expect(after('spent', 50)).toBeGreaterThan(after('fresh', 50));
    expect(after('spent', 20)).toBeLessThan(after('spent', 50));
  });

  it('an unknown room leaves more doubt than a measured one', () => {
    const width = (climate: RoomClimate) => {
      const outer = reckon('petg', opened, 720, null, climate).water?.outer;
      return (outer?.high ?? 0) / (outer?.low ?? 1);
    };
    expect(width({ kind: 'unknown' })).toBeGreaterThan(
      1.05 * width({ kind: 'measured', temperatureC: 22, percentRh: 48 }),
    );
  });

  it('follows the room month by month', () => {
    const months = (july: number): RoomClimate => ({
      kind: 'by-month',
      months: Array.from({ length: 12 }, (_, i) => ({ temperatureC: 22, percentRh: i === 6 ? july : 30 })),
    });
    const inJuly = (Date.parse('2026-07-28T00:00:00Z') - BEGIN) / HOUR;
    const content = (july: number) =>
      reckon('abs', opened, inJuly, null, months(july)).water?.outer.likely ?? NaN;
    expect(content(80)).toBeGreaterThan(1.5 * content(30));
  });

  it('a stay in the dryer takes the water out again', () => {
    const log = logOf(moved(0, 'open'), moved(500, 'dryer', { temperatureC: 65 }), moved(524, 'tub'));
    const before = reckon('petg', log.slice(0, 1), 500).water?.outer.likely ?? NaN;
    const after = reckon('petg', log, 525).water?.outer.likely ?? NaN;
    expect(after).toBeLessThan(0.5 * before);
  });

  it('a weighing begins anew from dry', () => {
    const weighed: SpoolEvent = { kind: 'weighed', filamentGramsBefore: 805, filamentGramsAfter: 800 };
    const log = logOf(moved(0, 'open'), { hours: 1000, event: weighed });
    const { water } = reckon('abs', log, 1001);
    expect(water?.outer.likely).toBeLessThan(0.05);
    expect(water?.verdict).toBe('dry');
  });

  it('the record stands for the time before the log; an undo takes back the newest entry', () => {
    const record: SpoolMake = { ...make('abs'), openedAt: new Date(BEGIN).toISOString(), storage: 'open' };
    const climate: RoomClimate = { kind: 'unknown' };
    const now = BEGIN + week * HOUR;
    expect(lifeOfSpool(knowledge, record, [], climate, now)?.stays.map(({ place }) => place.id)).toEqual([
      'open',
    ]);
    const log = logOf(moved(24, 'tub'), { hours: 48, event: { kind: 'undone' } });
    expect([...undoneSpoolSeqs(log)].sort()).toEqual([1, 2]);
    expect(lifeOfSpool(knowledge, record, log, climate, now)?.stays).toHaveLength(1);
    expect(lifeOfSpool(knowledge, make('abs'), [], climate, now)).toBeNull();
  });

  it('says why it says nothing', () => {
    expect(inEnglish(reckon('abs', [], 10).silence ?? '')).toMatch(/Log where the spool is/);
    expect(inEnglish(reckon('no-such-polymer', opened, 10).silence ?? '')).toMatch(/no figures/);
  });

  it('plans drying with a course that falls to the target', () => {
    const { drying } = reckon('pa6', opened, week);
    expect(drying?.kind === 'plan' || drying?.kind === 'cannot').toBe(true);
    expect(drying?.temperatureC).toBeLessThanOrEqual(70);
    expect(drying?.cautions.length).toBeGreaterThan(0);
    const likely = drying?.curve.map(({ outer }) => outer.likely) ?? [];
    expect(likely.at(-1)).toBeLessThan(likely[0] ?? 0);
  });

  it('verdicts step up with the chance', () => {
    expect([0, 0.2, 0.6, 0.9].map(verdictOn)).toEqual(['dry', 'near-limit', 'over-limit', 'far-over-limit']);
    expect(() => verdictOn(1.2)).toThrow('from 0 to 1');
    expect(() => usualFlowMm3PerS(knowledge.melting, 5)).toThrow('0.1 to 2 mm');
    // Bead geometry: twice the bore is four times the flow.
    expect(usualFlowMm3PerS(knowledge.melting, 0.8)).toBeCloseTo(
      4 * usualFlowMm3PerS(knowledge.melting, 0.4),
      9,
    );
    expect(usualFlowMm3PerS(knowledge.melting, 0.4)).toBe(5);
  });
});
