import { X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { isIP } from 'node:net';
import { parseArgs } from 'node:util';
import type { DoorSettings } from './door-settings.ts';
import type { NetworkPlan } from './network-door.ts';

/** Where devices of the network find a station, or the page with its root certificate, when no port is said. */
const USUAL_PORTS = { https: 4443, http: 4480 } as const;
const EVERYWHERE = { address: '0.0.0.0', port: null } as const;

export interface ListenOptions {
  /** Of `--port`; null where nothing was said. */
  readonly port: number | null;
  /** The door for devices of the network, if it is opened. */
  readonly network: NetworkPlan;
  /** Whether it is open, where that was said; null leaves it to the switch in the settings. */
  readonly isOpenToNetwork: boolean | null;
  /** Prints a code that lets a lead's device in: for a machine without a screen. */
  readonly isInviting: boolean;
}

/** Wrong use: the message says what would be right. */
export class ListenOptionsError extends Error {}

/**
 * What was said on the command line, or by the environment (BEADWRIGHT_PORT, _LISTEN, _CERTIFICATE, _KEY, _PLAIN_HTTP, _NAMES,
 * _ROOT_PAGE). Throws `ListenOptionsError` in words.
 */
export function listenOptionsOf(words: readonly string[], environment: NodeJS.ProcessEnv): ListenOptions {
  const said = parsed(words);
  const of = (flag: 'port' | 'listen' | 'certificate' | 'key' | 'root-page', variable: string) =>
    said[flag] ?? (environment[variable]?.trim() || undefined);
  const listen = of('listen', 'BEADWRIGHT_LISTEN');
  const isStaying = listen !== undefined && isLoopback(listen);
  const { address, port } = listen === undefined || isStaying ? EVERYWHERE : addressOf(listen);
  const certificate = certificateOf(of('certificate', 'BEADWRIGHT_CERTIFICATE'), of('key', 'BEADWRIGHT_KEY'));
  const isPlain = said['plain-http'] === true || environment['BEADWRIGHT_PLAIN_HTTP'] === '1';
  if (certificate && isPlain)
    throw new ListenOptionsError('--plain-http and --certificate do not go together: say one of them.');
  return {
    port: portOf(of('port', 'BEADWRIGHT_PORT'), '--port'),
    isOpenToNetwork: listen === undefined ? null : !isStaying,
    isInviting: said.invite === true,
    network: {
      address,
      port: port ?? USUAL_PORTS[isPlain ? 'http' : 'https'],
      rootPagePort: portOf(of('root-page', 'BEADWRIGHT_ROOT_PAGE'), '--root-page') ?? USUAL_PORTS.http,
      named: namedBy([...(said.name ?? []), ...(environment['BEADWRIGHT_NAMES'] ?? '').split(',')]),
      security: certificate
        ? { kind: 'given-certificate', certificate }
        : { kind: isPlain ? 'plain-http' : 'own-authority' },
    },
  };
}

function namedBy(words: readonly string[]): string[] {
  const named = words.map((name) => name.trim().toLowerCase()).filter(Boolean);
  for (const name of named)
    if (!/^[a-z0-9](?:[a-z0-9.-]{0,251}[a-z0-9])?$/.test(name))
      throw new ListenOptionsError(
        `--name takes the name of this machine, without port or scheme; not "${name}"`,
      );
  return named;
}

function parsed(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      options: {
        port: { type: 'string' },
        listen: { type: 'string' },
        certificate: { type: 'string' },
        key: { type: 'string' },
        'plain-http': { type: 'boolean' },
        'root-page': { type: 'string' },
        name: { type: 'string', multiple: true },
        invite: { type: 'boolean' },
      },
    }).values;
  } catch (error) {
    throw new ListenOptionsError(error instanceof Error ? error.message : String(error));
  }
}

function portOf(words: string | undefined, flag: string): number | null {
  if (words === undefined) return null;
  const port = Number(words);
  if (words.trim() === '' || !(Number.isInteger(port) && port >= 0 && port < 65_536))
    throw new ListenOptionsError(`${flag} takes a whole number from 0 to 65535`);
  return port;
}

function isLoopback(listen: string): boolean {
  return ['127.0.0.1', 'localhost', '::1'].includes(listen);
}

/** "0.0.0.0", "192.168.1.5:8443", "[::]:8443". */
function addressOf(listen: string): { address: string; port: number | null } {
  if (isIP(listen)) return { address: listen, port: null };
  const [, written = '', port] = /^(.*?)(?::(\d+))?$/.exec(listen) ?? [];
  const address = written.replace(/^\[(.*)\]$/, '$1');
  if (!isIP(address))
    throw new ListenOptionsError(
      `--listen takes an address of this machine, such as 0.0.0.0 for all of them, with a port if you like; not "${listen}"`,
    );
  return { address, port: portOf(port, 'the port of --listen') };
}

function certificateOf(
  certFile: string | undefined,
  keyFile: string | undefined,
): DoorSettings['certificate'] {
  if (certFile === undefined && keyFile === undefined) return null;
  if (certFile === undefined || keyFile === undefined)
    throw new ListenOptionsError(
      'A certificate goes with its key: say both, --certificate FILE and --key FILE.',
    );
  const cert = fileOf(certFile, 'certificate');
  try {
    new X509Certificate(cert);
  } catch {
    throw new ListenOptionsError(`${certFile} is no certificate in PEM form.`);
  }
  return { cert, key: fileOf(keyFile, 'key') };
}

function fileOf(file: string, what: string): Buffer {
  try {
    return readFileSync(file);
  } catch (error) {
    throw new ListenOptionsError(
      `The ${what} ${file} cannot be read: ${error instanceof Error ? error.message : String(error)}`,
    );
  }
}
