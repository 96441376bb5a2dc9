import { openDoor, type Door } from './door.ts';
import type { DoorSettings, Inside } from './door-settings.ts';

export interface StationSettings extends Inside {
  /** 0 takes any free port. */
  readonly port: number;
  /** What lets a browser of this machine in. */
  readonly token: string;
  /** A second door, for devices of the network. */
  readonly network?: Omit<DoorSettings, 'token'>;
}

export interface Station {
  readonly port: number;
  /** With the token: whoever has it, on this machine, is let in. */
  readonly address: string;
  /** The door for devices of the network, where there is one. */
  readonly network: Pick<Door, 'port' | 'scheme'> | null;
  /** Ends within seconds, whatever a client does. */
  close(): Promise<void>;
}

/**
 * Serves screens and calls over HTTP on the loopback address, to this machine alone, and where it is said by a second door to the
 * network. The token is no key to that one: only devices that have joined come in there.
 */
export async function startStation(settings: StationSettings): Promise<Station> {
  const own = await openDoor(
    {
      address: '127.0.0.1',
      port: settings.port,
      certificate: null,
      names: () => ['127.0.0.1', 'localhost'],
      token: settings.token,
    },
    settings,
  );
  const network = settings.network && (await openNetworkDoor(settings.network, settings, own));
  return {
    port: own.port,
    address: `http://127.0.0.1:${own.port}/?token=${settings.token}`,
    network: network ? { port: network.port, scheme: network.scheme } : null,
    close: async () => void (await Promise.all([own.close(), network?.close()])),
  };
}

async function openNetworkDoor(door: Omit<DoorSettings, 'token'>, inside: Inside, own: Door): Promise<Door> {
  try {
    return await openDoor({ ...door, token: null }, inside);
  } catch (error) {
    await own.close();
    throw error;
  }
}
