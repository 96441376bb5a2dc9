import type { ShopCosts } from '../../../src-core/contract/shop-costs.ts';
import type { Printer, Spool } from '../../../src-core/contract/shop-records.ts';
import type { RoomClimate } from '../../../src-core/contract/spool-life.ts';
import type { TemperatureUnit } from '../../../src-core/contract/display-choices.ts';
import type { GuideBook } from '../../host/guide-book.ts';
import { conditionValueWords } from '../../wording/condition-words.ts';
import { dateOnly } from '../../wording/format.ts';
import { inUnit } from '../../wording/words-in.ts';
import { asSentence } from '../../wording/label-words.ts';
import { m } from '../../messages/en/shop.ts';

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
    [m.name(), label],
    [m.model(), model],
    [m.printHours(), String(printHours)],
    ...ids.map((id): Field => conditionField(guide, id, conditions[id] ?? null, unit)),
    [m.note(), note],
    [m.retiredLabel(), isRetired ? 'yes' : 'no'],
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
    [m.name(), spool.label],
    [m.openedOn(), spool.openedAt === null ? '' : dateOnly(spool.openedAt)],
    [m.filamentDiameter(), m.mm({ filamentDiameterMm: spool.filamentDiameterMm })],
    [m.filamentWhenFull(), m.g({ filamentGrams: spool.filamentGrams })],
    [m.woundOn(), guide.guide.spoolBodies.find(({ id }) => id === spool.body)?.label ?? spool.body],
    [m.supplier(), spool.supplier],
    [m.batch(), spool.batch],
    [m.emptySpool(), spool.tareGrams === null ? '' : m.gWithTareGrams({ tareGrams: spool.tareGrams })],
    conditionField(guide, 'polymer', spool.polymer, unit),
    conditionField(guide, 'filler', spool.filler, unit),
    conditionField(guide, 'filler-percent', spool.fillerPercent, unit),
    conditionField(guide, 'storage', spool.storage, unit),
    [m.note(), spool.note],
    [m.usedUpLabel(), spool.isRetired ? 'yes' : 'no'],
  ];
  return changes(fieldsOf(before), fieldsOf(now));
}

/** The air in the shop as it stands now: "Measured: 22 °C, 45 %". */
export function climateWords(now: RoomClimate, unit: TemperatureUnit): string {
  if (now.kind === 'unknown') return m.notKnown();
  if (now.kind === 'by-month') return m.typicalByMonth();
  return inUnit(m.measuredCelsius({ temperatureC: now.temperatureC, percentRh: now.percentRh }), unit);
}

/** What another hand changed of the costs, as it stands now. */
export function costsChanges(before: ShopCosts | null, now: ShopCosts | null): readonly string[] {
  const parts = [...new Set([before, now].flatMap((costs) => Object.keys(costs?.parts ?? {})))];
  const figure = (value: number | undefined) => (value === undefined ? '' : String(value));
  const fieldsOf = (costs: ShopCosts | null): readonly Field[] => [
    [m.countInMoney(), costs?.isCounted ? 'yes' : 'no'],
    [m.moneyIsCalled(), costs?.currency ?? ''],
    [m.anHourOfWork(), figure(costs?.workPerHour)],
    [m.anHourOfAMachineStanding(), figure(costs?.standstillPerHour)],
    ...parts.map((name): Field => [asSentence(name), figure(costs?.parts[name])]),
  ];
  return changes(fieldsOf(before), fieldsOf(now));
}

/** Both lists name the same fields in the same order. */
function changes(before: readonly Field[], now: readonly Field[]): readonly string[] {
  return now.flatMap(([name, words], i) =>
    words === before[i]?.[1] ? [] : [words === '' ? m.notSet({ name }) : `${name}: ${words}`],
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
