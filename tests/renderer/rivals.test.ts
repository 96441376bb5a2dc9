import { describe, expect, it } from 'vitest';
import { rivalsOf } from '../../src-renderer/screens/guide/rivals.ts';
import { shippedGuideBook } from './shipped-guide-book.ts';
import { cause, observation, smallGuideBook } from './small-guide-book.ts';

const book = smallGuideBook({
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

describe('rivals of a cause', () => {
  it('come in the order of their likeness: what both show over what either shows', () => {
    const rivals = rivalsOf('own', book);
    expect(rivals.map((one) => one.cause)).toEqual(['twin', 'like']);
    expect(rivals[0]?.likeness).toBeCloseTo(1, 12);
    // min sum 0.4; max sum 0.8 + 0.5 + 0.9
    expect(rivals[1]?.likeness).toBeCloseTo(0.4 / 2.2, 12);
  });

  it('leave out what has nothing in common', () => {
    expect(rivalsOf('own', book).some((one) => one.cause === 'stranger')).toBe(false);
  });

  it('are told apart by quick checks that differ, each with its chance here and there', () => {
    const checks = rivalsOf('own', book)[1]?.checks ?? [];
    // Differences: x 0.36/√1, y 0.45/√4, z 0.81/√100.
    expect(checks.map((one) => one.observation)).toEqual(['x', 'y', 'z']);
    // With the leak: 1 - (1 - 0.8)(1 - 0.1) and 1 - (1 - 0.4)(1 - 0.1).
    expect(checks[0]?.here).toBeCloseTo(0.82, 12);
    expect(checks[0]?.there).toBeCloseTo(0.46, 12);
  });

  it('offer no check where nothing tells them apart', () => {
    expect(rivalsOf('own', book)[0]?.checks).toEqual([]);
  });

  it('see each other alike in the shipped guide, and never themselves or the unknown cause', () => {
    const shipped = shippedGuideBook();
    for (const { id } of shipped.guide.causes.slice(0, 40)) {
      for (const rival of rivalsOf(id, shipped)) {
        expect(rival.cause).not.toBe(id);
        expect(shipped.causes.get(rival.cause)?.showsAnyComplaint).toBeUndefined();
        const back = rivalsOf(rival.cause, shipped).find((one) => one.cause === id);
        if (back) expect(back.likeness).toBeCloseTo(rival.likeness, 12);
      }
    }
  });
});
