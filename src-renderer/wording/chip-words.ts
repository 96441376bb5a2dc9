import type { Chip } from '../../src-core/words/understand/chips.ts';
import type { TemperatureUnit } from '../../src-core/contract/display-choices.ts';
import type { GuideBook } from '../host/guide-book.ts';
import { conditionValueWords } from './condition-words.ts';
import { listed } from '../messages/lists.ts';
import { m } from '../messages/en/chip-words.ts';

interface Labelled {
  readonly id: string;
  readonly label: string;
}

/** What a chip says: "Stringing, heavy", "Not: popping", "Nozzle size: 0.6 mm", "Tried: Dry the spool, no better". */
export function chipWords(
  chip: Chip,
  book: GuideBook,
  records: { readonly printers: readonly Labelled[]; readonly spools: readonly Labelled[] },
  unit: TemperatureUnit,
): string {
  switch (chip.kind) {
    case 'observation': {
      const observation = book.observations.get(chip.id);
      const label = observation?.label ?? chip.id;
      if (chip.value === 'absent' || chip.value === observation?.grades?.[0]?.id) return m.not({ label });
      const grade = observation?.grades?.find((one) => one.id === chip.value)?.label.toLowerCase();
      return grade ? listed([label, grade], 'comma') : label;
    }
    case 'condition': {
      const condition = book.conditions.get(chip.id);
      return condition
        ? `${condition.label}: ${conditionValueWords(condition, chip.value, unit)}`
        : `${chip.id}: ${chip.value}`;
    }
    case 'tried': {
      const how = chip.outcome === 'better' ? m.betterNotCured() : m.noBetter();
      return m.tried({ remedies: book.remedies.get(chip.id)?.label ?? chip.id, how });
    }
    case 'printer':
      return m.printer({ find: records.printers.find(({ id }) => id === chip.id)?.label ?? chip.id });
    case 'spool':
      return m.spool({ find: records.spools.find(({ id }) => id === chip.id)?.label ?? chip.id });
  }
}
