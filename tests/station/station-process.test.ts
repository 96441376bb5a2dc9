import { statSync } from 'node:fs';
import net from 'node:net';
import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';

it('a page that was open before a restart goes on: same port, same token, "Try again" works', async () => {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const first = await startStationProcess(file, null);
  expect((await first.call('shop:read', {})).ok).toBe(true);
  await first.killAtOnce();
  await expect(first.call('shop:read', {})).rejects.toThrow();
  const second = await startStationProcess(file, null);
  expect(second.address).toBe(first.address);
  // The page of the first start, with the cookie of then.
  expect((await first.call('shop:read', {})).ok).toBe(true);
  if (process.platform !== 'win32') expect(statSync(`${file}.station.json`).mode & 0o077).toBe(0);
});

it('attack 16: SIGTERM ends it within seconds though a client has sent half a request, and frees the casebook', async () => {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const station = await startStationProcess(file);
  const { port, origin, searchParams } = new URL(station.address);
  const entry = await fetch(station.address, { redirect: 'manual' });
  const cookie = entry.headers.getSetCookie()[0]?.split(';')[0] ?? '';
  expect(searchParams.get('token')).toHaveLength(43);
  const socket = net.connect(Number(port), '127.0.0.1');
  onTestFinished(() => void socket.destroy());
  socket.on('error', () => undefined);
  socket.write(
    `POST /api/host:info HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nOrigin: ${origin}\r\nCookie: ${cookie}\r\nContent-Type: application/json\r\nContent-Length: 99\r\n\r\n{`,
  );
  await new Promise((resolve) => setTimeout(resolve, 300));
  const began = performance.now();
  await station.stop();
  // The station's own limit is 4.5 s; the rest is for a slow machine. Without a limit it would wait for ever.
  expect(performance.now() - began).toBeLessThan(60_000);
  expect((await (await startStationProcess(file)).call('shop:read', {})).ok).toBe(true);
});
