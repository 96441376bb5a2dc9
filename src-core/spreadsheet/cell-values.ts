import type { DATE_ORDERS } from '../contract/spreadsheet-choices.ts';
import type { ShopCalendar } from '../recurrence/shop-calendar.ts';
import { clipped } from '../words/clipped.ts';
import { importFaults } from '../words/en/import-faults.ts';
import type { Message } from '../words/message.ts';

export type CellResult<T> = { readonly value: T } | { readonly fault: Message };

const ISO_DAY = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ](\d{1,2}):(\d{2})(?::\d{2})?Z?)?$/;
const PARTED_DAY = /^(\d{1,2})[./-](\d{1,2})[./-](\d{2}|\d{4})(?:,?\s+(\d{1,2}):(\d{2})(?::\d{2})?)?$/;
/** A day without a time counts as noon: whatever the zone, it stays that day. */
const NOON = 12;

/**
 * A day, with or without a time, by the shop's clock, as ms since 1970: 2026-03-04, 4.3.2026, 04/03/2026 14:30. Which of the
 * last two comes first is said by `order`; points always mean day first.
 */
export function timeInCell(
  text: string,
  order: (typeof DATE_ORDERS)[number],
  calendar: ShopCalendar,
): CellResult<number> {
  const iso = ISO_DAY.exec(text);
  const parted = PARTED_DAY.exec(text);
  if (!iso && !parted) return { fault: importFaults.noDate({ text: clipped(text) }) };
  const [, a = '', b = '', c = '', hourText, minuteText] = iso ?? parted ?? [];
  const isDayFirst = text.includes('.') || order === 'day-first';
  const year = iso ? a : c.length === 2 ? `20${c}` : c;
  const [month, day] = iso ? [b, c] : isDayFirst ? [b, a] : [a, b];
  const [hour, minute] = [Number(hourText ?? NOON), Number(minuteText ?? 0)];
  const name = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  const parsed = new Date(`${name}T00:00:00Z`);
  // The 31st of February is the 3rd of March for a computer and a slip for people.
  if (
    Number.isNaN(parsed.getTime()) ||
    parsed.toISOString().slice(0, 10) !== name ||
    hour > 23 ||
    minute > 59
  ) {
    const fault = iso
      ? importFaults.noDay
      : isDayFirst
        ? importFaults.noDayDayFirst
        : importFaults.noDayMonthFirst;
    return { fault: fault({ text: clipped(text) }) };
  }
  return { value: calendar.startOf(name) + (hour * 60 + minute) * 60_000 };
}

/** An amount from 0: 12, 12.5, 12,5. One with a comma before three figures can be read in two ways and is refused. */
export function amountInCell(text: string): CellResult<number> {
  const bare = text.replace(/\s/g, '');
  if (/^\d{1,3}([.,]\d{3})+$/.test(bare) && !/^0[.,]/.test(bare))
    return { fault: importFaults.amountTwoWays({ text: clipped(text) }) };
  if (!/^\d+([.,]\d+)?$/.test(bare)) return { fault: importFaults.noAmount({ text: clipped(text) }) };
  return { value: Number(bare.replace(',', '.')) };
}
