import type { TemperatureUnit } from '../../src-core/contract/display-choices.ts';
import { m } from '../messages/en/temperature-input.ts';

/** How a number of the guide is shown and typed: °C figures follow the reader's unit, everything else stays. */
export interface ShownNumber {
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  /** From the guide's unit to the shown one. */
  readonly toShown: (value: number) => number;
  readonly toGuide: (shown: number) => number;
}

/**
 * The shown form of a number in `unit` within [min, max].
 * `isDifference`: a difference of temperatures scales by 1.8 without the shift by 32.
 */
export function shownNumber(
  number: { readonly unit: string; readonly min: number; readonly max: number },
  display: TemperatureUnit,
  isDifference = false,
): ShownNumber {
  if (number.unit !== '°C' || display === '°C') {
    return { ...number, toShown: (value) => value, toGuide: (shown) => shown };
  }
  const shift = isDifference ? 0 : 32;
  const toShown = (value: number) => round((value * 9) / 5 + shift);
  const toGuide = (shown: number) => round(((shown - shift) * 5) / 9);
  return { unit: '°F', min: toShown(number.min), max: toShown(number.max), toShown, toGuide };
}

/** Quantities that the guide states as one value minus another. */
export function isDifferenceQuantity(quantity: string): boolean {
  return /\bminus\b/i.test(quantity);
}

/**
 * A comma before just three figures: "1,500" is 1500 to one hand and 1.5 to another, and nothing tells which. After a
 * nought, or more than three figures, it can only be the decimal one.
 */
const TWO_WAYS = /^[-+−]?[1-9]\d{0,2},\d{3}$/;

/**
 * A typed number, with a comma or a point and either minus; NaN where there is none, or where it can be read two ways: "0x10"
 * and "1e3" are slips, "1,500" is asked again.
 */
export function typedNumber(text: string): number {
  if (TWO_WAYS.test(text.trim())) return NaN;
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return /^[-+]?(?:\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : NaN;
}

/** What to write instead of a number whose comma can be read two ways, or null. */
export function faultOfComma(text: string): string | null {
  const typed = text.trim();
  if (!TWO_WAYS.test(typed)) return null;
  return m.canBeReadTwoWaysWrite({
    typed,
    replace: typed.replace(',', ''),
    replace2: typed.replace(',', '.'),
  });
}

/** What is wrong with a typed number, or null; the message names the range. */
export function faultOfNumber(text: string, shown: ShownNumber): string | null {
  const twoWays = faultOfComma(text);
  if (twoWays) return twoWays;
  const value = typedNumber(text);
  if (!Number.isFinite(value)) return m.enterANumberIn({ unit: shown.unit });
  if (!(value >= shown.min && value <= shown.max))
    return m.itMustLieBetweenAnd({ shownMin: shown.min, shownMax: shown.max, unit: shown.unit });
  return null;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
