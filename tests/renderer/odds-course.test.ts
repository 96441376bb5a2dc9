import { describe, expect, it } from 'vitest';
import { oddsCourses, oddsSentence, stepsInForce } from '../../src-renderer/charts/odds-course.ts';

const step = (seq: number, text: string, odds: Readonly<Record<string, number>>, isUndone = false) => ({
  seq,
  text,
  isUndone,
  candidates: Object.entries(odds)
    .sort((a, b) => b[1] - a[1])
    .map(([cause, probability]) => ({ cause, label: cause.toUpperCase(), probability })),
});

const steps = [
  step(1, 'Stringing', { a: 0.4, b: 0.3, c: 0.1 }),
  step(2, 'Popping', { b: 0.9, a: 0.2 }, true),
  step(3, 'Dry spool', { a: 0.3, b: 0.2, d: 0.1 }),
  step(4, 'Worn bore', { b: 0.8, a: 0.1, e: 0.05, f: 0.04, g: 0.03 }),
];

describe('how the odds moved', () => {
  it('counts what was not taken back, with the causes that ever stood highest, the winner first', () => {
    const counted = stepsInForce(steps);
    expect(counted.map(({ seq }) => seq)).toEqual([1, 3, 4]);
    const courses = oddsCourses(counted);
    expect(courses.map(({ label, points }) => [label, points])).toEqual([
      ['B', [0.3, 0.2, 0.8]],
      ['A', [0.4, 0.3, 0.1]],
      ['C', [0.1, null, null]],
      ['D', [null, 0.1, null]],
    ]);
  });

  it('is said in words: who leads at the end and since when', () => {
    expect(oddsSentence(stepsInForce(steps))).toBe(
      'B is likeliest at the end, 80 %. It took the lead with “Worn bore”, before that it was A.',
    );
    expect(oddsSentence(steps.slice(0, 1))).toBe('A is likeliest at the end, 40 %. It led from the start.');
    expect(oddsSentence([])).toBe('');
  });
});
