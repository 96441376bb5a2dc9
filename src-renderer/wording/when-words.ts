import { listed, series } from '../messages/lists.ts';
import type { Guide } from '../../src-core/contract/guide-view.ts';
import type { TemperatureUnit } from '../../src-core/contract/display-choices.ts';
import { conditionValueWords } from './condition-words.ts';
import { m } from '../messages/en/when-words.ts';

export type When = Guide['causes'][number]['movedBy'][number]['when'];
type Condition = Guide['conditions'][number];

/** A test on conditions in words: "Polymer: Nylon 6, PVA or BVOH; Room humidity: from 60 %RH". */
export function whenWords(
  when: When,
  conditions: ReadonlyMap<string, Condition>,
  unit: TemperatureUnit,
): string {
  return series(
    Object.entries(when).map(([id, test]) => {
      const condition = conditions.get(id);
      const label = condition?.label ?? id;
      const valueOf = (value: string | number) =>
        condition ? conditionValueWords(condition, value, unit) : String(value);
      if (typeof test === 'string') return m.ofCondition({ label, values: valueOf(test) });
      if (Array.isArray(test)) return m.ofCondition({ label, values: listed(test.map(valueOf), 'or') });
      const limits = [
        ...(test.atLeast === undefined ? [] : [m.from({ rest: valueOf(test.atLeast) })]),
        ...(test.below === undefined ? [] : [m.below({ rest: valueOf(test.below) })]),
      ];
      return m.ofCondition({ label, values: listed(limits) });
    }),
  );
}
