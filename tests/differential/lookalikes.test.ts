import { describe, expect, it } from 'vitest';
import { lookalikesOf } from '../../src-core/differential/lookalikes.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { cause, observation, smallGuide } from './small-guide.ts';

const guide = smallGuide({
  observations: [
    observation('x', 0.1, 1),
    observation('y', 0.1, 4),
    observation('z', 0.1, 100),
    observation('w', 0.1, 1),
  ],
  causes: [
    cause('own', { x: 0.8, y: 0.5 }),
    cause('like', { x: 0.4, z: 0.9 }),
    cause('twin', { x: 0.8, y: 0.5 }),
    cause('stranger', { w: 0.9 }),
  ],
});

describe('causes that look like another', () => {
  it('come in the order of their likeness: what both show over what either shows', () => {
    const rivals = lookalikesOf(guide, 'own');
    expect(rivals.map((one) => one.cause)).toEqual(['twin', 'like']);
    expect(rivals[0]?.likeness).toBeCloseTo(1, 12);
    // min sum 0.4; max sum 0.8 + 0.5 + 0.9
    expect(rivals[1]?.likeness).toBeCloseTo(0.4 / 2.2, 12);
  });

  it('leave out what has nothing in common', () => {
    expect(lookalikesOf(guide, 'own').some((one) => one.cause === 'stranger')).toBe(false);
  });

  it('are told apart by checks that differ, each with its chance here and there', () => {
    const checks = lookalikesOf(guide, 'own')[1]?.checks ?? [];
    // Bits: x 0.11, y 0.19, z 0.56; only z tells half as much as the best.
    expect(checks.map((one) => one.observation)).toEqual(['z', 'y', 'x']);
    // With the leak: 1 - (1 - 0.8)(1 - 0.1) and 1 - (1 - 0.4)(1 - 0.1).
    expect(checks[2]?.here).toBeCloseTo(0.82, 12);
    expect(checks[2]?.there).toBeCloseTo(0.46, 12);
  });

  it('offer no check where nothing tells them apart', () => {
    expect(lookalikesOf(guide, 'own')[0]?.checks).toEqual([]);
  });

  it('see each other alike in the shipped guide, and never themselves or the unknown cause', () => {
    const shipped = shippedKnowledge();
    for (const id of [...shipped.causes.keys()].slice(0, 40)) {
      for (const rival of lookalikesOf(shipped, id)) {
        expect(rival.cause).not.toBe(id);
        expect(shipped.causes.get(rival.cause)?.showsAnyComplaint).toBeUndefined();
        const back = lookalikesOf(shipped, rival.cause).find((one) => one.cause === id);
        if (back) expect(back.likeness).toBeCloseTo(rival.likeness, 12);
      }
    }
  });
});
