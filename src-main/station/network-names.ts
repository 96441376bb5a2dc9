import { X509Certificate } from 'node:crypto';
import { isIP } from 'node:net';
import os from 'node:os';
import type { DoorSettings } from './door-settings.ts';

/** This machine's own name; in a small shop no name server knows it. */
export function ownName(): string {
  return os.hostname().toLowerCase();
}

/** The name that the system's own responder answers to, where there is one (mDNS, RFC 6762). */
export function ownLocalName(): string {
  const own = ownName();
  return own.endsWith('.local') ? own : `${own.split('.')[0]}.local`;
}

/** Addresses of this machine in its networks, those that are shorter to type (IPv4) first. */
export function ownAddresses(): string[] {
  return Object.values(os.networkInterfaces())
    .flatMap((found) => found ?? [])
    .filter(({ internal, address }) => !internal && !address.startsWith('fe80'))
    .map(({ address }) => address)
    .sort((a, b) => isIP(a) - isIP(b));
}

/**
 * By what a machine is reached that listens on this address, the best first: what was named, the local name where it is known to
 * answer, addresses, and then names of which that is not known. Addresses change with the network: to be asked each time.
 */
export function namesOf(address: string, { named, certificate, answering }: NamedBy): readonly string[] {
  const said = [...named, ...namesIn(certificate)];
  if (address !== '0.0.0.0' && address !== '::') return [...new Set([...said, address])];
  const unsure = [ownName(), ownLocalName()];
  return [...new Set([...said, ...(answering ? [answering] : []), ...ownAddresses(), ...unsure])];
}

interface NamedBy {
  readonly named: readonly string[];
  readonly certificate: DoorSettings['certificate'];
  /** The local name, where the system answers to it. */
  readonly answering: string | null;
}

/** Addresses to be shown: those that the certificate is made out for, otherwise all. */
export function addressesOf(
  names: readonly string[],
  certificate: DoorSettings['certificate'],
  port: number,
): string[] {
  if (!certificate) return names.map((name) => addressOf('http', name, port));
  const covered = coveredBy(certificate.cert, names);
  return (covered.length > 0 ? covered : names).map((name) => addressOf('https', name, port));
}

export function addressOf(scheme: 'http' | 'https', name: string, port: number): string {
  return `${scheme}://${name.includes(':') ? `[${name}]` : name}:${port}`;
}

/** Those of the names that a certificate is made out for. */
export function coveredBy(cert: Buffer, names: readonly string[]): string[] {
  const read = new X509Certificate(cert);
  return names.filter((name) => (isIP(name) ? read.checkIP(name) : read.checkHost(name)) !== undefined);
}

/** Names that the certificate itself says; a wildcard names nobody. */
function namesIn(certificate: DoorSettings['certificate']): string[] {
  if (!certificate) return [];
  const alternatives = new X509Certificate(certificate.cert).subjectAltName ?? '';
  return [...alternatives.matchAll(/DNS:([^,\s]+)/g)]
    .map(([, name = '']) => name.toLowerCase())
    .filter((name) => !name.includes('*'));
}
