import { m } from '../messages/en/wait-words.ts';
import { timeOfDay } from './clock-words.ts';
import { dateTime, duration } from './format.ts';

/** A wait that was begun and is over at `until` (ISO 8601): "Ready at 21:47, in 3 h", "The wait is over since 21:47". */
export function waitWords(until: string, nowMs: number): string {
  const leftMinutes = (Date.parse(until) - nowMs) / 60_000;
  const at = Math.abs(leftMinutes) < 12 * 60 ? timeOfDay(until) : dateTime(until);
  return leftMinutes > 0
    ? m.readyAtIn({ at, duration: duration(Math.max(1, leftMinutes)) })
    : m.theWaitIsOverSince({ at });
}

export function isOver(until: string, nowMs: number): boolean {
  return Date.parse(until) <= nowMs;
}
