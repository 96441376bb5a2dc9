import type { Message, Words } from '../../words/message.ts';
import type { Random } from '../seeded-random.ts';

/** A drill as it is set: what is told, and what is asked with the choices that are right. */
export interface SetDrill {
  readonly task: Words;
  readonly facts: readonly { readonly label: Message; readonly value: Words }[];
  readonly questions: readonly DrillQuestion[];
}

export interface DrillQuestion {
  readonly id: string;
  readonly label: Message;
  readonly choices: readonly { readonly id: string; readonly label: Words }[];
  /** Ids of the choices that are right, on these answers to the other questions. */
  readonly right: (answer: Readonly<Record<string, string>>) => readonly string[];
  readonly why: (given: string, answer: Readonly<Record<string, string>>) => Words;
}

export function pickOne<T>(list: readonly T[], random: Random): T {
  const one = list[Math.floor(random() * list.length)];
  if (one === undefined) throw new RangeError('nothing to pick from');
  return one;
}

/** The same in another order (Fisher and Yates). */
export function shuffled<T>(list: readonly T[], random: Random): T[] {
  const out = [...list];
  for (let last = out.length - 1; last > 0; last--) {
    const other = Math.floor(random() * (last + 1));
    const [a, b] = [out[last], out[other]];
    if (a === undefined || b === undefined) continue;
    out[last] = b;
    out[other] = a;
  }
  return out;
}
