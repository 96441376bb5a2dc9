import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { stationLog } from '../../src-main/station/station-log.ts';
import { ended } from '../processes/ended.ts';
import { launchStation } from '../processes/launch-station.ts';
import { temporaryFolder } from '../temporary-folder.ts';

it('says what happens as lines of JSON where it is asked to, and never the token nor what was entered', async () => {
  const station = await launchStation(
    path.join(temporaryFolder(), 'casebook.sqlite'),
    (child) => onTestFinished(() => ended(child, 'SIGKILL')),
    0,
    undefined,
    { BEADWRIGHT_LOG: 'debug' },
  );
  await station.call('shop:save-printer', { label: 'Heron of the back room', conditions: {}, printHours: 1 });
  await station.stop();
  const read = () =>
    station
      .output()
      .split('\n')
      .slice(0, -1)
      .filter((line) => line.startsWith('{'))
      .map((line) => JSON.parse(line) as { msg: string; path?: string; status?: number });
  // A process may be gone before its last line has been read.
  await expect.poll(() => read().at(-1)?.msg).toBe('stopped');
  const lines = read();
  expect(lines[0]?.msg).toBe('started');
  expect(lines).toContainEqual(
    expect.objectContaining({ msg: 'answered', path: '/api/shop:save-printer', status: 200 }),
  );
  const token = new URL(station.address).searchParams.get('token') ?? '';
  expect(token).not.toBe('');
  const all = JSON.stringify(lines);
  expect([all.includes(token), all.includes('Heron')]).toEqual([false, false]);
});

it('refuses a level that there is not', () => {
  expect(() => stationLog({ BEADWRIGHT_LOG: 'chatty' })).toThrow(/takes error, warn, info or debug/);
});
