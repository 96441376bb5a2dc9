import { expect, it } from 'vitest';
import { faultOfNumber, typedNumber } from '../../src-renderer/wording/temperature-input.ts';

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

const hours = { unit: 'h', min: 0, max: 200_000, toShown: Number, toGuide: Number };

it.each(['12,100', '1,500', '−2,000'])(
  'B13: "%s" could be thousands or thousandths, and is refused',
  (text) => {
    expect(typedNumber(text)).toBeNaN();
    expect(faultOfNumber(text, hours)).toContain('two ways');
  },
);

it.each([
  ['0,125', 0.125],
  ['1,75', 1.75],
  ['12.100', 12.1],
  ['1234,567', 1234.567],
])('B13: "%s" can only be %d', (text, value) => expect(typedNumber(text)).toBe(value));
