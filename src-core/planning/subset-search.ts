import type { FoundOrder } from './found-order.ts';
import { NOTHING_LEFT, type RemedyRow, type RepairTables } from './repair-tables.ts';

/**
 * Cheapest order by dynamic programming over sets of remedies done. What is left to pay depends only on the set:
 * the chance that the complaint persists, and the preparations made, do not remember the order. 2^n sets of n
 * remedies.
 */
export function cheapestByEnumeration(
  tables: RepairTables,
  remedies: readonly RemedyRow[],
  probabilities: Float64Array,
  unresolved: number,
): FoundOrder {
  const count = remedies.length;
  const sets = 2 ** count;
  const persists = persistsOfSets(tables, remedies, probabilities, unresolved);
  const minutes = minutesOfSets(tables, remedies);
  const toPay = new Float64Array(sets);
  const next = new Int32Array(sets).fill(-1);
  for (let set = sets - 1; set >= 0; set--) {
    const here = persists[set] as number;
    toPay[set] = here === 0 ? 0 : here * tables.serviceMinutes;
    if (here === 0) continue;
    for (let k = 0; k < count; k++) {
      if ((set >> k) & 1) continue;
      const cost = here * (minutes[set * count + k] as number) + (toPay[set | (1 << k)] as number);
      if (cost < (toPay[set] as number)) {
        toPay[set] = cost;
        next[set] = k;
      }
    }
  }
  const order: RemedyRow[] = [];
  for (let set = 0, k = next[0] ?? -1; k >= 0; k = next[set] ?? -1) {
    order.push(remedies[k] as RemedyRow);
    set |= 1 << k;
  }
  return { order, expectedMinutes: toPay[0] ?? 0, isOptimal: true };
}

/** Probability that the complaint is still there after each set of remedies (bit k: remedy k done). */
function persistsOfSets(
  tables: RepairTables,
  remedies: readonly RemedyRow[],
  probabilities: Float64Array,
  unresolved: number,
): Float64Array {
  const sets = 2 ** remedies.length;
  const left = Array.from({ length: tables.causeCount }, () => new Float64Array(0));
  const isTouched = new Uint8Array(tables.scenarioCount);
  remedies.forEach((row, k) => {
    for (const s of row.scenarios) isTouched[s] = 1;
    row.slots.forEach((slot, at) => {
      if (left[slot]?.length === 0) left[slot] = new Float64Array(sets).fill(1);
      const of = left[slot] ?? new Float64Array(0);
      const stays = row.stays[at] as number;
      for (let set = 0; set < sets; set++) if ((set >> k) & 1) of[set] = (of[set] as number) * stays;
    });
  });
  const persists = new Float64Array(sets).fill(unresolved);
  for (let s = 0; s < tables.scenarioCount; s++) {
    const p = probabilities[s] as number;
    const of = Array.from(
      tables.causeSlots.subarray(tables.start[s], tables.start[s + 1]),
      (slot) => left[slot],
    );
    // A cause that no remedy removes holds the complaint up whatever is done.
    const isHeldAnyway = isTouched[s] === 0 || of.some((each) => each?.length === 0);
    for (let set = 0; set < sets; set++) {
      let gone = isHeldAnyway ? 0 : 1;
      if (gone === 1) for (const each of of) gone *= 1 - (each?.[set] ?? 1);
      persists[set] = (persists[set] as number) + p * (1 - gone);
    }
  }
  return persists.map((value) => (value < NOTHING_LEFT ? 0 : value));
}

function minutesOfSets(tables: RepairTables, remedies: readonly RemedyRow[]): Float64Array {
  const count = remedies.length;
  const sets = 2 ** count;
  const minutes = new Float64Array(sets * count);
  for (let set = 0; set < sets; set++) {
    for (let k = 0; k < count; k++) {
      const row = remedies[k] as RemedyRow;
      let total = row.minutes;
      for (const name of row.preparations) {
        const isMade = remedies.some(
          (other, j) => ((set >> j) & 1) === 1 && other.preparations.includes(name),
        );
        if (!isMade) total += tables.preparationMinutes[name] ?? 0;
      }
      minutes[set * count + k] = total;
    }
  }
  return minutes;
}
