import type { ShopCosts } from '../../../src-core/contract/shop-costs.ts';
import type { Printer, Spool } from '../../../src-core/contract/shop-records.ts';
import type { RoomClimate } from '../../../src-core/contract/spool-life.ts';
import type { TemperatureUnit } from '../../../src-core/contract/display-choices.ts';
import type { GuideBook } from '../../host/guide-book.ts';
import { conditionValueWords } from '../../wording/condition-words.ts';
import { dateOnly, inUnit } from '../../wording/format.ts';
import { asSentence } from '../../wording/label-words.ts';

/** A field as the form names it, and what stands in it; empty where nothing does. */
type Field = readonly [name: string, words: string];

/** What another hand changed of a printer, as it stands now: "Print hours: 1200". */
export function printerChanges(
  before: Printer,
  now: Printer,
  guide: GuideBook,
  unit: TemperatureUnit,
): readonly string[] {
  const ids = [...new Set([before, now].flatMap(({ conditions }) => Object.keys(conditions)))];
  const fieldsOf = ({ label, model, printHours, note, isRetired, conditions }: Printer): readonly Field[] => [
    ['Name', label],
    ['Model', model],
    ['Print hours', String(printHours)],
    ...ids.map((id): Field => conditionField(guide, id, conditions[id] ?? null, unit)),
    ['Note', note],
    ['Retired', isRetired ? 'yes' : 'no'],
  ];
  return changes(fieldsOf(before), fieldsOf(now));
}

/** What another hand changed of a spool, as it stands now. */
export function spoolChanges(
  before: Spool,
  now: Spool,
  guide: GuideBook,
  unit: TemperatureUnit,
): readonly string[] {
  const fieldsOf = (spool: Spool): readonly Field[] => [
    ['Name', spool.label],
    ['Opened on', spool.openedAt === null ? '' : dateOnly(spool.openedAt)],
    ['Filament diameter', `${spool.filamentDiameterMm} mm`],
    ['Filament when full', `${spool.filamentGrams} g`],
    ['Wound on', guide.guide.spoolBodies.find(({ id }) => id === spool.body)?.label ?? spool.body],
    ['Supplier', spool.supplier],
    ['Batch', spool.batch],
    ['Empty spool', spool.tareGrams === null ? '' : `${spool.tareGrams} g`],
    conditionField(guide, 'polymer', spool.polymer, unit),
    conditionField(guide, 'filler', spool.filler, unit),
    conditionField(guide, 'filler-percent', spool.fillerPercent, unit),
    conditionField(guide, 'storage', spool.storage, unit),
    ['Note', spool.note],
    ['Used up', spool.isRetired ? 'yes' : 'no'],
  ];
  return changes(fieldsOf(before), fieldsOf(now));
}

/** The air in the shop as it stands now: "Measured: 22 °C, 45 %". */
export function climateWords(now: RoomClimate, unit: TemperatureUnit): string {
  if (now.kind === 'unknown') return 'Not known';
  if (now.kind === 'by-month') return 'Typical, by month';
  return inUnit(`Measured: ${now.temperatureC} °C, ${now.percentRh} %`, unit);
}

/** What another hand changed of the costs, as it stands now. */
export function costsChanges(before: ShopCosts | null, now: ShopCosts | null): readonly string[] {
  const parts = [...new Set([before, now].flatMap((costs) => Object.keys(costs?.parts ?? {})))];
  const figure = (value: number | undefined) => (value === undefined ? '' : String(value));
  const fieldsOf = (costs: ShopCosts | null): readonly Field[] => [
    ['Count in money', costs?.isCounted ? 'yes' : 'no'],
    ['Money is called', costs?.currency ?? ''],
    ['An hour of work', figure(costs?.workPerHour)],
    ['An hour of a machine standing', figure(costs?.standstillPerHour)],
    ...parts.map((name): Field => [asSentence(name), figure(costs?.parts[name])]),
  ];
  return changes(fieldsOf(before), fieldsOf(now));
}

/** Both lists name the same fields in the same order. */
function changes(before: readonly Field[], now: readonly Field[]): readonly string[] {
  return now.flatMap(([name, words], i) =>
    words === before[i]?.[1] ? [] : [`${name}: ${words === '' ? 'not set' : words}`],
  );
}

function conditionField(
  guide: GuideBook,
  id: string,
  value: string | number | null,
  unit: TemperatureUnit,
): Field {
  const condition = guide.conditions.get(id);
  const words = value === null ? '' : condition ? conditionValueWords(condition, value, unit) : String(value);
  return [condition?.label ?? id, words];
}
