import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { figure } from '../attack/figures.ts';
import { runShop } from '../bench/shop/run-shop.ts';
import { hasPostgres, orWhyNot } from '../postgres/database.ts';
import { serverFolder, serverIn } from '../postgres/server.ts';
import { freePort } from '../../src-main/station/free-port.ts';

/** `npm run bench -- shop` plays it at length. */
const TABLETS = 6;
const SECONDS = 9;

it.skipIf(!hasPostgres())(
  orWhyNot(
    'two stations on one database lose, double and mix up nothing, over a kill of one and a hard stop of the database',
  ),
  async () => {
    // Not the server of the other tests: this one is stopped.
    const server = serverIn(serverFolder());
    onTestFinished(() => server.remove());
    server.start();
    const folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    const figures = await runShop({
      tablets: TABLETS,
      stations: 2,
      seconds: SECONDS,
      pauseMs: 100,
      postgres: { server, address: server.address('postgres') },
      folder,
      port: await freePort(23_000 + (process.pid % 4000)),
    });
    expect(figures.faults).toEqual([]);
    // It was really played, and really cut short.
    expect(figures.answers).toBeGreaterThan(TABLETS * 3);
    expect(figures.unsure).toBeGreaterThan(0);
    figure('shop', `${figures.answers} answers, ${figures.unsure} looked up again, 0 lost`);
  },
  600_000,
);
