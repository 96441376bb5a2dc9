import { expect, it } from 'vitest';
import { typedNumber } from '../../src-renderer/wording/temperature-input.ts';

it.each([
  ['1,75', 1.75],
  ['1.75', 1.75],
  [' 2,85 ', 2.85],
  ['1000', 1000],
  ['−4,5', -4.5],
])('B13: "%s" as typed in a shop form is %d', (text, value) => expect(typedNumber(text)).toBe(value));

it.each(['', '1,000,5', '1.75 mm', '0x10', '1e3', 'two'])('B13: "%s" is no number', (text) =>
  expect(typedNumber(text)).toBeNaN(),
);
