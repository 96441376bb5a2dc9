import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FLOW_NUMBERS, type FlowNumber } from '../../src-core/contract/flow-numbers.ts';
import type { FlowQuestion } from '../../src-core/contract/flow-sheet.ts';
import { flowSheet } from '../../src-core/flow/flow-sheet.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const PLAIN: FlowQuestion = {
  lineWidthMm: 0.42,
  layerHeightMm: 0.2,
  speedMmPerS: 60,
  filamentDiameterMm: 1.75,
  nozzleMm: 0.4,
  polymer: 'pla',
  meltZone: 'long',
  fillerPercent: null,
  particleLengthMm: null,
  nozzleC: null,
};
const ask = (fields: Partial<FlowQuestion>, density: number | null = 1240) =>
  flowSheet({ ...PLAIN, ...fields }, density, shippedKnowledge().melting);

/** A line that can be: wide, high, fast, wider than high. */
const lines = fc
  .record({
    lineWidthMm: fc.double({ min: 0.05, max: 2.4, noNaN: true }),
    flatness: fc.double({ min: 0.4, max: 1, noNaN: true }),
    speedMmPerS: fc.double({ min: 0.5, max: 500, noNaN: true }),
  })
  .map(({ lineWidthMm, flatness, speedMmPerS }) => ({
    lineWidthMm,
    layerHeightMm: Math.min(1, flatness * lineWidthMm),
    speedMmPerS,
  }));

describe('flow sheet', () => {
  // Rounded bead of an open-hardware engineer's note on slicing dimensions, 2014, and the plain product; derived from both.
  it.each([
    [0.6, 0.3, 100, 18.0, 16.068583],
    [0.42, 0.2, 60, 5.04, 4.524956],
    [0.45, 0.2, 150, 13.5, 12.212389],
    [0.42, 0.28, 100, 11.76, 10.077522],
    [0.84, 0.4, 60, 20.16, 18.099822],
    [0.9, 0.5, 100, 45.0, 39.634954],
    [0.4, 0.1, 50, 2.0, 1.892699],
  ])('%d × %d mm at %d mm/s: %d mm³/s plain, %d rounded', (width, height, speed, plain, rounded) => {
    const sheet = ask({ lineWidthMm: width, layerHeightMm: height, speedMmPerS: speed });
    expect(sheet.plainFlowMm3PerS).toBeCloseTo(plain, 9);
    expect(sheet.flowMm3PerS).toBeCloseTo(rounded, 5);
  });

  it('flow, feed and filament an hour go with the speed; stay in the heat goes against it', () => {
    fc.assert(
      fc.property(lines, fc.double({ min: 0.5, max: 2, noNaN: true }), (line, times) => {
        fc.pre(line.speedMmPerS * times >= 0.5);
        const one = ask(line);
        const other = ask({ ...line, speedMmPerS: line.speedMmPerS * times });
        expect(other.flowMm3PerS / one.flowMm3PerS).toBeCloseTo(times, 9);
        expect(other.feedMmPerS / one.feedMmPerS).toBeCloseTo(times, 9);
        expect(other.metresPerHour / one.metresPerHour).toBeCloseTo(times, 9);
        expect((one.residenceSeconds ?? 0) / (other.residenceSeconds ?? 1)).toBeCloseTo(times, 9);
        expect(other.fastestMmPerS?.likely).toBeCloseTo(one.fastestMmPerS?.likely ?? 0, 6);
      }),
      { numRuns: 300, seed: 7 },
    );
  });

  it('twice the width and twice the height is four times the flow', () => {
    fc.assert(
      fc.property(lines, (line) => {
        const doubled = { ...line, lineWidthMm: 2 * line.lineWidthMm, layerHeightMm: 2 * line.layerHeightMm };
        expect(ask(doubled).flowMm3PerS / ask(line).flowMm3PerS).toBeCloseTo(4, 9);
      }),
      { numRuns: 300, seed: 8 },
    );
    // Derived record: from 0.42 × 0.2 to 0.84 × 0.4 mm at the same speed.
    expect(ask({ lineWidthMm: 0.84, layerHeightMm: 0.4 }).flowMm3PerS).toBeCloseTo(4 * 4.524956, 4);
  });

  it('at the fastest speed the share of the capacity is one, end by end', () => {
    const { fastestMmPerS } = ask({});
    for (const end of ['low', 'likely', 'high'] as const) {
      const { shareOfCapacity } = ask({ speedMmPerS: fastestMmPerS?.[end] ?? 0 });
      // A weak hot end is the high end of the share.
      const share = { low: 'high', likely: 'likely', high: 'low' } as const;
      expect(shareOfCapacity?.[share[end]]).toBeCloseTo(1, 9);
    }
  });

  // Length of 1 kg at customary densities, and plug flow through 20 mm of 1.75 mm bore: 4.8106 s at 10 mm³/s.
  it('agrees with the length of a kilogram and the stay in a melt zone', () => {
    const { metresPerHour, gramsPerHour, residenceSeconds, flowMm3PerS } = ask({});
    expect((1000 * metresPerHour) / (gramsPerHour ?? 0)).toBeCloseTo(335.284, 2);
    expect(((residenceSeconds ?? 0) * flowMm3PerS) / 10).toBeCloseTo(4.8106, 3);
  });

  // Crank (1975): 90 % of the way in 2.5604 s at 1e-7 m²/s; polymers have 0.8e-7 to 1.3e-7 m²/s, from memory.
  it('heats through in two to three seconds', () => {
    const { low, likely, high } = ask({}).heatingSeconds;
    expect(likely).toBeCloseTo(2.5604, 3);
    expect(low).toBeCloseTo(2.5604 / 1.3, 3);
    expect(high).toBeCloseTo(2.5604 / 0.8, 3);
  });

  // Hagen and Poiseuille: 0.4 to 0.5 mm leaves 0.4096 of the pressure, 0.4 to 0.6 mm 0.197531.
  it('pressure through the common bores follows the fourth power', () => {
    const times = new Map(ask({}).bores.map(({ boreMm, timesPressure }) => [boreMm, timesPressure]));
    expect([...times.keys()]).toEqual([0.25, 0.4, 0.5, 0.6, 0.8, 1]);
    expect(times.get(0.4)).toBe(1);
    expect(times.get(0.5)).toBeCloseTo(0.4096, 6);
    expect(times.get(0.6)).toBeCloseTo(0.197531, 6);
  });

  // Arrhenius with energies of rheology handbooks, from memory: PLA 80 to 110, ABS 90 to 120, PC 105 to 120, PA6 50 to 65, PP 38
  // to 46 kJ/mol. The ratios are derived for energies inside these ranges.
  it.each([
    ['pla', 210, 0.634889],
    ['abs', 240, 0.638893],
    ['pc', 280, 0.641456],
    ['pa6', 250, 0.772034],
    ['pp', 220, 0.815804],
  ])('%s from %d °C thins to about %d in 10 °C', (polymer, nozzleC, ratio) => {
    const { hotter } = ask({ polymer, nozzleC });
    expect(hotter?.byC).toBe(10);
    expect(hotter?.lowestTimesViscosity).toBeLessThan(ratio);
    expect(hotter?.highestTimesViscosity).toBeGreaterThan(ratio);
  });

  it('says nothing of viscosity, capacity, bridging or grams that it does not know', () => {
    expect(ask({ polymer: 'tpu', nozzleC: 225 }).hotter).toBeNull();
    expect(ask({ nozzleC: null }).hotter).toBeNull();
    expect(ask({ polymer: null })).toMatchObject({ capacityMm3PerS: null, fastestMmPerS: null });
    expect(ask({ meltZone: null })).toMatchObject({ residenceSeconds: null, shareOfCapacity: null });
    expect(ask({ fillerPercent: 20 }).bridging).toBeNull();
    expect(ask({ fillerPercent: 0, particleLengthMm: 0.15 }).bridging).toBeNull();
    expect(ask({}, null).gramsPerHour).toBeNull();
    expect(ask({ fillerPercent: 20 }).gramsPerHour).toBeNull();
  });

  // Common practice: 30 % fibre jams 0.4 mm and 0.6 mm cures it; 10 % passes 0.4 mm. No bore that is sold passes what is coarser.
  it('bridging: the next bore that is sold is the one of practice', () => {
    const fibre = (fillerPercent: number, nozzleMm: number, particleLengthMm = 0.15) =>
      ask({ fillerPercent, nozzleMm, particleLengthMm }).bridging;
    expect(fibre(30, 0.4)).toMatchObject({ level: 'high', nextBoreMm: 0.6 });
    expect(fibre(30, 0.5)).toMatchObject({ level: 'raised' });
    expect(fibre(30, 0.6)).toMatchObject({ level: 'low' });
    expect(fibre(10, 0.4)).toMatchObject({ level: 'low', nextBoreMm: 0.4 });
    expect(fibre(60, 0.4, 0.4)).toMatchObject({ level: 'high', nextBoreMm: null });
  });

  it.each(Object.keys(FLOW_NUMBERS) as FlowNumber[])('names %s where it is out of range', (field) => {
    const { min, max } = FLOW_NUMBERS[field];
    for (const value of [NaN, Infinity, 0.9 * min - 1e-6, 1.1 * max]) {
      const askWith = () => ask({ [field]: value });
      expect(askWith).toThrow(RangeError);
      expect(askWith).toThrow(field);
    }
  });

  it('refuses a line narrower than its layer is high', () => {
    expect(() => ask({ lineWidthMm: 0.2, layerHeightMm: 0.3 })).toThrow(
      /line width \(lineWidthMm\).*0\.3 mm/,
    );
  });
});
