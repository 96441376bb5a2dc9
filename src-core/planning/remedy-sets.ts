import type { RemedyRow, RepairTables } from './repair-tables.ts';

/** For each remedy the set (bit k: remedy k) of those among `rows` that come before it. */
export function setsBefore(rows: readonly RemedyRow[]): readonly number[] {
  return rows.map(({ after }) =>
    rows.reduce((bits, { index }, k) => (after.includes(index) ? bits | (1 << k) : bits), 0),
  );
}

/** Preparations as bits by their number; at most 31 kinds. */
export function preparationBits(numbers: readonly number[]): number {
  return numbers.reduce((bits, name) => bits | (1 << name), 0);
}

/** Fills in the preparations that each set of remedies has made. */
export function fillPrepared(needs: readonly number[], into: Int32Array): void {
  into[0] = 0;
  for (let set = 1; set < 2 ** needs.length; set++)
    into[set] = (into[set & (set - 1)] as number) | (needs[31 - Math.clz32(set & -set)] as number);
}

/** Minutes of these preparations together. */
export function preparationMinutesOf({ preparationMinutes }: RepairTables, wanted: number): number {
  let minutes = 0;
  for (let bits = wanted; bits !== 0; bits &= bits - 1)
    minutes += preparationMinutes[31 - Math.clz32(bits & -bits)] as number;
  return minutes;
}
