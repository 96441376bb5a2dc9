import { expect, it } from 'vitest';
import { REST_DAYS, waitingToComeBack, type Attempt } from '../../src-core/training/repetition.ts';

const day = (days: number) => days * 24 * 3_600_000;

it('brings back what was missed after 1, 2, 4, 8 and 16 days, and then no more', () => {
  const attempts: Attempt[] = [{ item: 'wet-filament', atMs: 0, isRight: false }];
  let today = 0;
  for (const rest of REST_DAYS) {
    expect(waitingToComeBack(attempts)).toMatchObject([{ item: 'wet-filament', dueMs: day(today + rest) }]);
    today += rest;
    attempts.push({ item: 'wet-filament', atMs: day(today), isRight: true });
  }
  expect(today).toBe(31);
  expect(waitingToComeBack(attempts)).toEqual([]);
});

it('puts a second miss back to the start, and what was never missed nowhere', () => {
  const waiting = waitingToComeBack([
    { item: 'belt-loose', atMs: 0, isRight: true },
    { item: 'worn-nozzle', atMs: 0, isRight: false },
    { item: 'plate-dirty', atMs: day(1), isRight: false },
    { item: 'worn-nozzle', atMs: day(1), isRight: true },
    { item: 'worn-nozzle', atMs: day(3), isRight: false },
  ]);
  expect(waiting).toEqual([
    { item: 'plate-dirty', box: 0, dueMs: day(2) },
    { item: 'worn-nozzle', box: 0, dueMs: day(4) },
  ]);
});
