import type { TemperatureUnit } from '../display/display-settings.svelte.ts';

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

/** A typed number, with a comma or a point and either minus; NaN where there is none: "0x10" and "1e3" are slips. */
export function typedNumber(text: string): number {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return /^[-+]?(?:\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : NaN;
}

/** What is wrong with a typed number, or null; the message names the range. */
export function faultOfNumber(text: string, shown: ShownNumber): string | null {
  const value = typedNumber(text);
  if (!Number.isFinite(value)) return `Enter a number in ${shown.unit}.`;
  if (!(value >= shown.min && value <= shown.max))
    return `It must lie between ${shown.min} and ${shown.max} ${shown.unit}.`;
  return null;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
