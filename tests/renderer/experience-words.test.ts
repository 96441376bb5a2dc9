import { describe, expect, it } from 'vitest';
import type { OwnExperience } from '../../src-core/contract/own-experience-view.ts';
import {
  countedWords,
  sureWords,
  timesWords,
} from '../../src-renderer/screens/experience/experience-words.ts';

const found = (changes: Partial<OwnExperience>): OwnExperience => ({
  choice: { mode: 'on', until: null, links: false },
  links: [],
  linkCount: 0,
  revision: 1,
  cases: 12,
  closedSince: 0,
  namedByHand: [],
  isDemo: false,
  printerId: null,
  rows: [],
  ...changes,
});

describe('own experience in words', () => {
  it.each([
    [0.0823, '0.082'],
    [1.96, '2'],
    [9.9, '9.9'],
    [12.4, '12'],
  ])('%d times is said as %s', (times, words) => {
    expect(timesWords(times)).toBe(words);
  });

  it('only limits that leave 1 out say that the shop differs', () => {
    expect(sureWords({ low: 1.1, high: 3 })).toBe('More often than the guide says');
    expect(sureWords({ low: 0.1, high: 0.9 })).toBe('Less often than the guide says');
    expect(sureWords({ low: 0.9, high: 3 })).toBe('Cannot be told from the guide yet');
  });

  it('what counts says whose cases they are, and what was closed too late to count', () => {
    expect(countedWords(found({}))).toBe('12 closed cases with a cause of the guide count.');
    expect(countedWords(found({ cases: 1, isDemo: true }))).toBe(
      '1 closed case of the demo shop with a cause of the guide counts.',
    );
    expect(countedWords(found({ choice: { mode: 'off', until: null, links: false } }))).toContain(
      'would count',
    );
    const frozen = { mode: 'frozen', until: '2026-11-01T00:00:00.000Z', links: false } as const;
    expect(countedWords(found({ choice: frozen, closedSince: 3 }))).toContain(
      '3 closed since then do not count',
    );
  });
});
