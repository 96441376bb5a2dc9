import { expect, it } from 'vitest';
import { LatestWork } from '../../src-renderer/files/latest-work.ts';

it('B14: of two files read at once the later one counts, whichever is done first', async () => {
  const work = new LatestWork();
  const taken: string[] = [];
  const ends: (() => void)[] = [];
  const reading = (name: string) => () => new Promise<string>((resolve) => ends.push(() => resolve(name)));
  const first = work.run(reading('first.gcode'), (name) => taken.push(name));
  const second = work.run(reading('second.gcode'), (name) => taken.push(name));
  ends[1]?.();
  ends[0]?.();
  await Promise.all([first, second]);
  expect(taken).toEqual(['second.gcode']);
});

it('B14: what was stopped is not taken, and the work before it has been told to stop', async () => {
  const work = new LatestWork();
  const taken: string[] = [];
  let signal: AbortSignal | null = null;
  let end: () => void = () => undefined;
  const run = work.run(
    (own) => {
      signal = own;
      return new Promise<string>((resolve) => (end = () => resolve('job.gcode')));
    },
    (name) => taken.push(name),
  );
  work.stop();
  expect((signal as AbortSignal | null)?.aborted).toBe(true);
  end();
  await run;
  expect(taken).toEqual([]);
});
