import type { Guide } from '../../src-core/contract/guide-view.ts';
import type { TemperatureUnit } from '../../src-core/contract/display-choices.ts';
import { shownNumber } from './temperature-input.ts';

type Condition = Guide['conditions'][number];

/** A condition's value as people say it: "ABS", "0.8 mm", "240 °C" (in the reader's unit). */
export function conditionValueWords(
  condition: Condition,
  value: string | number,
  unit: TemperatureUnit,
): string {
  if (condition.number && typeof value === 'number') {
    const shown = shownNumber(condition.number, unit);
    return `${shown.toShown(value)} ${shown.unit}`;
  }
  return condition.values?.find((one) => one.id === value)?.label ?? String(value);
}

/** Nozzle sizes that are commonly sold, in mm. */
export const USUAL_NOZZLES_MM: readonly number[] = [0.25, 0.4, 0.6, 0.8, 1];

/** Numbers offered for one press, in the condition's unit. */
export function usualNumbers(condition: string): readonly number[] | undefined {
  if (condition === 'nozzle-mm') return USUAL_NOZZLES_MM;
  return condition === 'filler-percent' ? [10, 15, 20, 30] : undefined;
}
