import { describe, expect, it } from 'vitest';
import { marginWords } from '../../src-renderer/screens/materials/fit-words.ts';

describe('margins in words', () => {
  it.each([
    [{ kind: 'kelvin', low: 33, high: 41, wanted: 20 }, '33 to 41 °C to spare'],
    [{ kind: 'kelvin', low: 10, high: 18, wanted: 20 }, '10 to 18 °C to spare, 20 °C wanted'],
    [{ kind: 'kelvin', low: -5, high: -5, wanted: 5 }, '5 °C short'],
    [{ kind: 'kelvin', low: -10, high: 0, wanted: 5 }, '0 to 10 °C short'],
    [{ kind: 'kelvin', low: -20, high: 20, wanted: 5 }, '20 °C short to 20 °C to spare'],
    [{ kind: 'grades', steps: 0 }, 'just met'],
    [{ kind: 'grades', steps: -2 }, '2 grades short'],
    [{ kind: 'times', low: 0.5, high: 1.24 }, 'met 0.5 to 1.2 times'],
  ] as const)('%o is "%s"', (margin, words) => {
    expect(marginWords(margin, '°C')).toBe(words);
  });

  it('a margin in °F scales without the shift of 32', () => {
    expect(marginWords({ kind: 'kelvin', low: -10, high: -5, wanted: 5 }, '°F')).toBe('9 to 18 °F short');
  });
});
