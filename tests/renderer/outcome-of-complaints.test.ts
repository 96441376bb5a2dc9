import { expect, it } from 'vitest';
import { outcomesLeft } from '../../src-renderer/screens/case/remedies/outcome-of-complaints.ts';

it('cured means that every complaint is gone, and nothing is said before all were looked at', () => {
  const three = ['a', 'b', 'c'];
  expect(outcomesLeft(three, {})).toEqual([]);
  expect(outcomesLeft(three, { a: true, b: true })).toEqual([]);
  expect(outcomesLeft(three, { a: true, b: true, c: true })).toEqual(['cured']);
  expect(outcomesLeft(three, { a: true, b: false, c: true })).not.toContain('cured');
  expect(outcomesLeft(three, { a: true, b: false, c: true })).toContain('partly');
  expect(outcomesLeft(three, { a: false, b: false, c: false })).toEqual(['better', 'not-cured', 'worse']);
});
