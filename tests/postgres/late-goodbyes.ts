import net from 'node:net';
import path from 'node:path';
import { onTestFinished } from 'vitest';
import { temporaryFolder } from '../temporary-folder.ts';

const LATE_MS = 1500;
/** Begins the message by which a client says that it ends. */
const TERMINATE = 'X'.charCodeAt(0);

/**
 * The address of the same database by way of a line on which the server hears of the end of a connection only 1.5 s after it; all
 * else goes through at once.
 */
export async function lateGoodbyes(address: string): Promise<string> {
  const there = /host=(.*)$/.exec(address)?.[1] ?? '';
  const folder = temporaryFolder();
  const socket = '.s.PGSQL.5432';
  const line = net.createServer((client) => {
    const server = net.connect(path.join(there, socket));
    server.pipe(client);
    client.on('data', (bytes) => {
      if (bytes[0] === TERMINATE) client.end();
      else server.write(bytes);
    });
    client.on('close', () => setTimeout(() => server.destroy(), LATE_MS));
    for (const end of [client, server]) end.on('error', () => undefined);
  });
  await new Promise<void>((resolve) => line.listen(path.join(folder, socket), resolve));
  onTestFinished(() => {
    line.close();
  });
  return address.replace(/host=.*$/, `host=${folder}`);
}
