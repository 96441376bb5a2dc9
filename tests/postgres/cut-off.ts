import net from 'node:net';
import path from 'node:path';
import { onTestFinished } from 'vitest';
import { temporaryFolder } from '../temporary-folder.ts';

const SOCKET = '.s.PGSQL.5432';

/** A way to a database that can be cut and joined again: what a station sees when its server goes away and comes back. */
export interface Way {
  /** The database by this way. */
  readonly address: string;
  cut(): Promise<void>;
  /** Nothing comes through any more, and nobody is told: a pulled cable. */
  silence(): void;
  join(): Promise<void>;
}

export async function wayTo(address: string): Promise<Way> {
  const [direct = '', real = ''] = address.split('?host=');
  const folder = temporaryFolder();
  const open = new Set<net.Socket>();
  const server = net.createServer((near) => {
    const far = net.connect(path.join(real, SOCKET));
    for (const [one, other] of [
      [near, far],
      [far, near],
    ] as const) {
      open.add(one);
      one.on('error', () => undefined);
      one.on('close', () => {
        open.delete(one);
        other.destroy();
      });
      one.pipe(other);
    }
  });
  const join = () =>
    new Promise<void>((resolve) => server.listen(path.join(folder, SOCKET), () => resolve()));
  const cut = () =>
    new Promise<void>((resolve) => {
      server.close(() => resolve());
      for (const one of open) one.destroy();
    });
  await join();
  onTestFinished(() => (server.listening ? cut() : undefined));
  const silence = () => {
    for (const one of open) one.unpipe().pause();
  };
  return { address: `${direct}?host=${folder}`, cut, join, silence };
}
