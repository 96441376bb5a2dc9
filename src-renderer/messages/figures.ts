import { locale } from './language.ts';

/** A figure with a fixed count of decimals, with the decimal mark of the page's language and no marks between thousands. */
export function fixed(value: number, decimals: number): string {
  return value.toLocaleString(locale(), {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
    useGrouping: false,
  });
}
