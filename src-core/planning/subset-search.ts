import type { FoundOrder } from './found-order.ts';
import { fillPrepared, preparationBits, preparationMinutesOf, setsBefore } from './remedy-sets.ts';
import { NOTHING_LEFT, type RemedyRow, type RepairTables } from './repair-tables.ts';

/**
 * Cheapest order by dynamic programming over sets of remedies done. What is left to pay depends only on the set:
 * the chance that the complaint persists, and the preparations made, do not remember the order. 2^n sets of n
 * remedies. At most 31 kinds of preparation. What comes before a remedy binds where it is among `remedies`.
 */
export function cheapestByEnumeration(
  tables: RepairTables,
  remedies: readonly RemedyRow[],
  probabilities: Float64Array,
  unresolved: number,
): FoundOrder {
  const count = remedies.length;
  const sets = 2 ** count;
  const { space } = tables;
  space.reserve(sets, tables.causeCount);
  const { toPay, next, prepared } = space;
  const persists = persistsOfSets(tables, remedies, probabilities, unresolved);
  const needs = remedies.map((row) => preparationBits(row.preparations));
  const before = setsBefore(remedies);
  fillPrepared(needs, prepared);
  for (let set = sets - 1; set >= 0; set--) {
    const here = persists[set] as number;
    let least = here === 0 ? 0 : here * tables.serviceMinutes;
    let choice = -1;
    for (let k = 0; k < count && here > 0; k++) {
      if ((set >> k) & 1 || ((before[k] as number) & ~set) !== 0) continue;
      const open = (needs[k] as number) & ~(prepared[set] as number);
      const minutes = (remedies[k] as RemedyRow).minutes + preparationMinutesOf(tables, open);
      const cost = here * minutes + (toPay[set | (1 << k)] as number);
      if (cost < least) {
        least = cost;
        choice = k;
      }
    }
    toPay[set] = least;
    next[set] = choice;
  }
  const order: RemedyRow[] = [];
  for (let set = 0, k = next[0] as number; k >= 0; k = next[set] as number) {
    order.push(remedies[k] as RemedyRow);
    set |= 1 << k;
  }
  return { order, expectedMinutes: toPay[0] as number, isOptimal: true };
}

/** Probability that the complaint is still there after each set of remedies (bit k: remedy k done). */
function persistsOfSets(
  tables: RepairTables,
  remedies: readonly RemedyRow[],
  probabilities: Float64Array,
  unresolved: number,
): Float64Array {
  const sets = 2 ** remedies.length;
  const { persists, left } = tables.space;
  const { start, causeSlots } = tables;
  const isTouched = new Uint8Array(tables.causeCount);
  remedies.forEach(({ slots, stays }, k) => {
    for (let at = 0; at < slots.length; at++) {
      const slot = slots[at] as number;
      const base = slot * sets;
      if (isTouched[slot] === 0) left.fill(1, base, base + sets);
      isTouched[slot] = 1;
      for (let set = 1 << k; set < sets; set = (set + 1) | (1 << k)) {
        left[base + set] = (left[base + set] as number) * (stays[at] as number);
      }
    }
  });
  persists.fill(unresolved, 0, sets);
  let heldAnyway = 0;
  for (let s = 0; s < tables.scenarioCount; s++) {
    const p = probabilities[s] as number;
    if (p === 0) continue;
    const from = start[s] as number;
    const to = start[s + 1] as number;
    // A cause that no remedy removes holds the complaint up whatever is done.
    let isHeldAnyway = false;
    for (let k = from; k < to; k++) isHeldAnyway ||= isTouched[causeSlots[k] as number] === 0;
    if (isHeldAnyway) {
      heldAnyway += p;
      continue;
    }
    for (let set = 0; set < sets; set++) {
      let gone = 1;
      for (let k = from; k < to; k++) gone *= 1 - (left[(causeSlots[k] as number) * sets + set] as number);
      persists[set] = (persists[set] as number) + p * (1 - gone);
    }
  }
  for (let set = 0; set < sets; set++) {
    const value = (persists[set] as number) + heldAnyway;
    persists[set] = value < NOTHING_LEFT ? 0 : value;
  }
  return persists;
}
