import { describe, expect, it } from 'vitest';
import { warmPart } from '../../src-renderer/screens/intake/warm-part.ts';

const readings = (...actual: number[]) =>
  actual.map((actualC, seconds) => ({ seconds, actualC, targetC: 240 }));

describe('what of a heater is plotted', () => {
  it('leaves the heating up out, so that a swing is seen', () => {
    expect(warmPart(readings(20, 120, 236, 243, 238, 241))?.map(({ actualC }) => actualC)).toEqual([
      236, 243, 238, 241,
    ]);
  });

  it('is all of a log that was begun warm', () => {
    expect(warmPart(readings(243, 238, 241))).toHaveLength(3);
  });

  it('is nothing apart where it never gets warm, or hardly', () => {
    expect(warmPart(readings(20, 60, 100))).toBeNull();
    expect(warmPart(readings(20, 60, 100, 239))).toBeNull();
  });
});
