import { describe, expect, it } from 'vitest';
import type { DryingReport } from '../../src-core/contract/spool-life.ts';
import {
  contentWords,
  dryingSentence,
  hoursWords,
  wrapsWords,
} from '../../src-renderer/screens/spool/spool-words.ts';

describe('the words of a spool', () => {
  it('say contents and hours as people do', () => {
    expect([0.001, 0.2345, 4.16].map(contentWords)).toEqual(['below 0.01 %', '0.23 %', '4.2 %']);
    expect([0.4, 6.2, 47.6, 72].map(hoursWords)).toEqual(['24 min', '6 h', '2 d', '3 d']);
    expect(wrapsWords({ low: 2, likely: 5, high: null })).toBe('5 h (2 h to more than 72 h)');
    expect(wrapsWords(null)).toBe('–');
  });

  it('say why drying cannot work and what helps', () => {
    const drying: DryingReport = {
      kind: 'cannot',
      because: 'air-too-damp',
      temperatureC: 50,
      heldBackBy: null,
      targetPercent: 0.1,
      equilibriumPercent: { low: 0.1, likely: 0.3, high: 0.5 },
      warmUpHours: 2,
      outerHours: null,
      innerHours: null,
      mayStayDamp: false,
      afterADay: null,
      curve: [],
      cautions: [],
    };
    expect(dryingSentence(drying)).toMatch(/cannot get down to 0.1 %.*leaves 0.3 % in it.*dries its air/);
    expect(dryingSentence({ ...drying, because: 'too-slow' })).toMatch(/within 72 h.*More heat/);
  });
});
