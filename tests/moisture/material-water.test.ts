import { describe, expect, it } from 'vitest';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import {
  equilibriumMassFraction,
  isothermPoints,
  materialWaterOf,
  type Range,
} from '../../src-core/moisture/index.ts';
import { diffusivityM2PerS, GRADES } from '../../src-core/moisture/material-water.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { waterOf } from './spools.ts';

const knowledge = shippedKnowledge();
const polymers = [...knowledge.materials.values()].filter((one) => one.kind === 'polymer');

describe('the guide', () => {
  it('knows water, highest drying temperature and reason of every polymer', () => {
    for (const { id } of polymers) {
      const water = waterOf(id);
      expect(water.highestDryingC, id).toBeGreaterThan(40);
      expect(water.dryingLimitWhy, id).not.toBe('');
      expect(water.printingLimit.low, id).toBeGreaterThan(0);
    }
  });

  it('says the same about the equilibrium in water.yaml and in polymers.yaml: the ranges touch', () => {
    for (const { id, properties } of polymers) {
      const stated = properties.equilibriumWaterPercent;
      if (stated?.low === undefined || stated.high === undefined) throw new Error(`${id} states no range`);
      const { low, high } = waterOf(id).equilibriumAt50;
      expect(low * 100, id).toBeLessThanOrEqual(stated.high);
      expect(high * 100, id).toBeGreaterThanOrEqual(stated.low);
    }
  });

  it('reaches the stated saturation with its isotherm within a factor of 1.6, where one is stated', () => {
    for (const { id, properties } of polymers) {
      const stated = properties.saturationWaterPercent;
      const low = stated?.low ?? stated?.value;
      const high = stated?.high ?? stated?.value;
      if (typeof low !== 'number' || typeof high !== 'number') continue;
      const found = equilibriumMassFraction(waterOf(id), 1, 'likely') * 100;
      expect(found, id).toBeGreaterThan(low / 1.6);
      expect(found, id).toBeLessThan(high * 1.6);
    }
  });

  it('refuses a range out of order and water data of an unknown polymer, with file and line', () => {
    const entry = (id: string, likely: number) =>
      [
        'topic: Hand-made',
        'materials: [{ id: pla, label: PLA, kind: polymer, summary: One., properties: {} }]',
        'water:',
        `  - id: ${id}`,
        `    equilibriumAt50Percent: { low: 0.3, likely: ${likely}, high: 0.5, source: estimate }`,
        '    humidityExponent: { value: 1, source: estimate }',
        '    diffusivityAt23: { low: 1e-12, likely: 2e-12, high: 3e-12, source: estimate }',
        '    activationEnergyKjPerMol: { low: 30, likely: 35, high: 40, source: estimate }',
        '    printingLimitPercent: { low: 0.1, likely: 0.2, high: 0.3, source: estimate }',
        '    densityKgPerM3: { value: 1240, source: estimate }',
      ].join('\n');
    const faultsOf = (text: string) => {
      const loaded = loadKnowledge([{ file: 'hand-made.yaml', text }]);
      return loaded.ok ? [] : loaded.faults;
    };
    expect(faultsOf(entry('pla', 0.7))).toContainEqual(
      expect.objectContaining({
        file: 'hand-made.yaml',
        line: 5,
        message: expect.stringContaining('low ≤ likely ≤ high'),
      }),
    );
    expect(faultsOf(entry('plaa', 0.4))).toContainEqual(
      expect.objectContaining({ code: 'dangling-id', line: 4, remedy: 'did you mean "pla"?' }),
    );
  });

  it('refuses an isotherm of a desiccant that falls', () => {
    const text = [
      'topic: Hand-made',
      'desiccants:',
      '  - { id: gel, label: Gel, regenerate: Heat it., source: estimate,',
      '      holds: [{ atPercentRh: 20, gPer100g: 12 }, { atPercentRh: 10, gPer100g: 14 }] }',
    ].join('\n');
    const loaded = loadKnowledge([{ file: 'hand-made.yaml', text }]);
    expect(loaded.ok ? [] : loaded.faults.map((fault) => fault.code)).toContain('falling-isotherm');
  });
});

describe('a filament', () => {
  it('holds the stated content at 50 %, none in dry air, and more in damper air', () => {
    const points = isothermPoints(waterOf('pa6'));
    const at = (share: number) => points.find((point) => Math.abs(point.relativeHumidity - share) < 1e-9);
    expect(at(0.5)?.massFraction.likely).toBeCloseTo(0.027, 12);
    expect(at(0)?.massFraction.likely).toBe(0);
    const likely = points.map((point) => point.massFraction.likely);
    expect(likely).toEqual([...likely].sort((a, b) => a - b));
  });

  it('with filler holds less in proportion: PA6 with 30 % of glass 0.7 times as much', () => {
    const filled = materialWaterOf(knowledge, 'pa6', 0.3);
    expect(filled.equilibriumAt50.likely / waterOf('pa6').equilibriumAt50.likely).toBeCloseTo(0.7, 12);
    // equilibrium-table, resin data from memory: PA6-GF30 holds 1.8 to 2.2 % at 50 %.
    expect(filled.equilibriumAt50.likely).toBeGreaterThan(0.018);
    expect(filled.equilibriumAt50.likely).toBeLessThan(0.022);
  });

  it('keeps its diffusivities in order at every temperature, the band widening away from 23 °C', () => {
    for (const { id } of polymers) {
      const water = waterOf(id);
      const at = (celsius: number): Range => {
        const [low = NaN, likely = NaN, high = NaN] = GRADES.map((grade) =>
          diffusivityM2PerS(water, celsius, grade),
        );
        return { low, likely, high };
      };
      for (const celsius of [5, 23, 54, 120]) {
        const { low, likely, high } = at(celsius);
        expect(low, id).toBeLessThanOrEqual(likely);
        expect(likely, id).toBeLessThanOrEqual(high);
      }
      expect(at(23).likely, id).toBeCloseTo(water.diffusivityAt23M2PerS.likely, 24);
      expect(at(90).high / at(90).low).toBeGreaterThan(at(23).high / at(23).low);
    }
  });

  it('is refused when unknown or filled beyond measure', () => {
    expect(() => materialWaterOf(knowledge, 'wool')).toThrow('no water data of "wool"; it has pla, petg');
    expect(() => materialWaterOf(knowledge, 'pla', 30)).toThrow('30 % is 0.3');
  });
});
