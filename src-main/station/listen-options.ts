import { X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';
import os from 'node:os';
import { isIP } from 'node:net';
import { parseArgs } from 'node:util';
import type { DoorSettings } from './door-settings.ts';

/** Where devices of the network find a station when no port is said. */
const USUAL_PORTS = { https: 4443, http: 4480 } as const;

export interface ListenOptions {
  /** Of `--port`; null where nothing was said. */
  readonly port: number | null;
  /** The door for devices of the network; null where Beadwright stays on this machine. */
  readonly network: (Omit<DoorSettings, 'token'> & { readonly addresses: (port: number) => string[] }) | null;
  /** Prints a code that lets a lead's device in: for a machine without a screen. */
  readonly isInviting: boolean;
}

/** Wrong use: the message says what would be right. */
export class ListenOptionsError extends Error {}

/**
 * What was said on the command line, or by the environment (BEADWRIGHT_PORT, _LISTEN, _CERTIFICATE, _KEY, _PLAIN_HTTP, _NAMES).
 * Throws `ListenOptionsError` in words.
 */
export function listenOptionsOf(words: readonly string[], environment: NodeJS.ProcessEnv): ListenOptions {
  const said = parsed(words);
  const of = (flag: 'port' | 'listen' | 'certificate' | 'key', variable: string) =>
    said[flag] ?? (environment[variable]?.trim() || undefined);
  const listen = of('listen', 'BEADWRIGHT_LISTEN');
  const port = portOf(of('port', 'BEADWRIGHT_PORT'), '--port');
  const isInviting = said.invite === true;
  if (listen === undefined || isLoopback(listen)) return { port, network: null, isInviting };
  const { address, port: networkPort } = addressOf(listen);
  const certificate = certificateOf(of('certificate', 'BEADWRIGHT_CERTIFICATE'), of('key', 'BEADWRIGHT_KEY'));
  const isPlain = said['plain-http'] === true || environment['BEADWRIGHT_PLAIN_HTTP'] === '1';
  if (!certificate && !isPlain)
    throw new ListenOptionsError(
      [
        'Beyond this machine Beadwright speaks HTTPS: say --certificate FILE and --key FILE.',
        'Over plain HTTP whoever is on the network can read along and take over a device. If that is what you want, say --plain-http.',
      ].join('\n'),
    );
  if (certificate && isPlain)
    throw new ListenOptionsError('--plain-http and --certificate do not go together: say one of them.');
  const named = [...(said.name ?? []), ...(environment['BEADWRIGHT_NAMES'] ?? '').split(',')]
    .map((name) => name.trim().toLowerCase())
    .filter(Boolean);
  for (const name of named)
    if (!/^[a-z0-9](?:[a-z0-9.-]{0,251}[a-z0-9])?$/.test(name))
      throw new ListenOptionsError(
        `--name takes the name of this machine, without port or scheme; not "${name}"`,
      );
  const names = () => [...new Set([...named, ...namesIn(certificate), ...namesOf(address)])];
  return {
    port,
    isInviting,
    network: {
      address,
      port: networkPort ?? USUAL_PORTS[certificate ? 'https' : 'http'],
      certificate,
      names,
      addresses: (bound) => addressesOf(names(), certificate, bound),
    },
  };
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

/** Names that the certificate itself says; a wildcard names nobody. */
function namesIn(certificate: DoorSettings['certificate']): string[] {
  if (!certificate) return [];
  const alternatives = new X509Certificate(certificate.cert).subjectAltName ?? '';
  return [...alternatives.matchAll(/DNS:([^,\s]+)/g)]
    .map(([, name = '']) => name.toLowerCase())
    .filter((name) => !name.includes('*'));
}

/** What a machine is reached by on this address: its addresses change with the network, so they are looked up each time. */
function namesOf(address: string): string[] {
  if (address !== '0.0.0.0' && address !== '::') return [address];
  const own = os.hostname().toLowerCase();
  const addresses = Object.values(os.networkInterfaces())
    .flatMap((found) => found ?? [])
    .filter(({ internal, address: one }) => !internal && !one.startsWith('fe80'))
    .map(({ address: one }) => one);
  return [own, ...(own.includes('.') ? [] : [`${own}.local`]), ...addresses];
}

/** Addresses to be shown, the best first: those that the certificate is made out for, otherwise all. */
function addressesOf(
  names: readonly string[],
  certificate: DoorSettings['certificate'],
  port: number,
): string[] {
  const scheme = certificate ? 'https' : 'http';
  const of = (name: string) => `${scheme}://${name.includes(':') ? `[${name}]` : name}:${port}`;
  if (!certificate) return names.map(of);
  const read = new X509Certificate(certificate.cert);
  const covered = names.filter(
    (name) => (isIP(name) ? read.checkIP(name) : read.checkHost(name)) !== undefined,
  );
  return (covered.length > 0 ? covered : names).map(of);
}
