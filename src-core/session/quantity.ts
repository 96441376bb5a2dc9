import { caseLogTexts } from '../words/en/case-log.ts';
import { celsius, decimalsOf, kelvin, type MessageValue } from '../words/message.ts';

/** A measured value with its unit; temperatures, and differences of them, so that the reader's unit can be used. */
export function quantityOf(value: number, unit: string, isDifference: boolean): MessageValue {
  if (unit === '°C') return (isDifference ? kelvin : celsius)(value, decimalsOf(value));
  return unit === '' ? value : caseLogTexts.m.quantity({ value, unit });
}

/** Whether an observation measures a difference: of two temperatures, it is no temperature. */
export function measuresDifference(measure: { readonly quantity: string } | undefined): boolean {
  return /\bminus\b/i.test(measure?.quantity ?? '');
}
