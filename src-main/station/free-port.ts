import { createServer } from 'node:net';

/** Where a station is looked for when nothing was said and nothing is remembered. */
export const USUAL_PORT = 4173;
const TRIES = 50;

/** The first free port of the loopback address from this one on; 0, which takes any, where fifty in a row are taken. */
export async function freePort(from: number): Promise<number> {
  for (let port = from; port < Math.min(from + TRIES, 65_536); port++) if (await isFree(port)) return port;
  return 0;
}

/** Whether a port of the loopback address can be had. */
export function isFree(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => resolve(false));
    server.listen({ host: '127.0.0.1', port, exclusive: true }, () => server.close(() => resolve(true)));
  });
}
