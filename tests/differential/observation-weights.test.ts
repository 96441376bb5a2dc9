import { describe, expect, it } from 'vitest';
import { weightsOf } from '../../src-core/differential/observation-weights.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { cause, observation, smallGuide } from './small-guide.ts';

describe('what an observation speaks for', () => {
  it('weighs finding and not finding it against nothing being behind it', () => {
    const guide = smallGuide({
      observations: [observation('x', 0.1, 1)],
      causes: [cause('a', { x: 0.8 }), cause('b', {})],
    });
    const weights = weightsOf(guide, 'x');
    expect(weights.map((one) => one.cause)).toEqual(['a']);
    // Met with the cause: 1 - 0.2 · 0.9 = 0.82.
    expect(weights[0]?.present).toBeCloseTo(10 * Math.log10(8.2), 10);
    expect(weights[0]?.absent).toBeCloseTo(10 * Math.log10(0.18 / 0.9), 10);
  });

  it('is finite for every observation of the shipped guide, and finding a sign never speaks against who shows it', () => {
    const knowledge = shippedKnowledge();
    let weighed = 0;
    for (const [id, { kind }] of knowledge.observations) {
      for (const { chance, present, absent } of weightsOf(knowledge, id)) {
        expect(Number.isFinite(present) && Number.isFinite(absent), id).toBe(true);
        expect(chance).toBeGreaterThan(0);
        if (kind !== 'sign') continue;
        expect(present, id).toBeGreaterThanOrEqual(-1e-9);
        expect(absent, id).toBeLessThanOrEqual(1e-9);
        weighed++;
      }
    }
    expect(weighed).toBeGreaterThan(1000);
  });

  it('says which observation the guide has not', () => {
    expect(() => weightsOf(smallGuide({}), 'gone')).toThrow('"gone"');
  });
});
