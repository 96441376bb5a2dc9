import { duration } from './format.ts';

/** A remedy's time: "15 min, then 8 h waiting". */
export function remedyMinutes(minutes: { readonly handsOn: number; readonly waiting: number }): string {
  const hands = duration(minutes.handsOn);
  return minutes.waiting > 0 ? `${hands}, then ${duration(minutes.waiting)} waiting` : hands;
}
