import { duration } from './format.ts';
import { m } from '../messages/en/minutes-words.ts';

/** A remedy's time: "15 min, then 8 h waiting". */
export function remedyMinutes(minutes: { readonly handsOn: number; readonly waiting: number }): string {
  const hands = duration(minutes.handsOn);
  return minutes.waiting > 0 ? m.thenWaiting({ hands, duration: duration(minutes.waiting) }) : hands;
}
