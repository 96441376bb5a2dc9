import { openDoor } from './door.ts';
import type { Inside } from './door-settings.ts';

export interface StationDoor {
  /** 0 takes any free port. */
  readonly port: number;
  /** What lets a browser of this machine in. */
  readonly token: string;
}

export interface Station {
  readonly port: number;
  /** With the token: whoever has it, on this machine, is let in. */
  readonly address: string;
  /** Ends within seconds, whatever a client does. */
  close(): Promise<void>;
}

/**
 * Serves screens and calls over HTTP on the loopback address, to this machine alone. The door to the network is another one
 * (`network-door.ts`), to which the token is no key.
 */
export async function startStation(inside: Inside, { port, token }: StationDoor): Promise<Station> {
  const own = await openDoor(
    { address: '127.0.0.1', port, certificate: null, names: () => ['127.0.0.1', 'localhost'], token },
    inside,
  );
  return {
    port: own.port,
    address: `http://127.0.0.1:${own.port}/?token=${token}`,
    close: () => own.close(),
  };
}
