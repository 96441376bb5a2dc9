import { hrefTo } from '../navigation/route.svelte.ts';

const SPOOL = 'beadwright:spool:';
const PRINTER = 'beadwright:printer:';
/** An address with a printer's place at its end, whatever port or machine it was printed for. */
const PRINTER_ADDRESS = /#\/printer\/([0-9a-hjkmnp-tv-z]{26})$/i;

/** What the code on a spool's label says. */
export function labelCode(spoolId: string): string {
  return `${SPOOL}${spoolId}`;
}

/**
 * What the code on a printer says: where pages come over HTTP its address, which a telephone's camera opens; on the desktop a
 * code for a hand scanner at the intake. `page` is the page's own address.
 */
export function printerCode(printerId: string, page: string): string {
  const { protocol, origin } = new URL(page);
  return protocol.startsWith('http') ? `${origin}/${hrefTo('printer', printerId)}` : `${PRINTER}${printerId}`;
}

export interface Scanned {
  readonly kind: 'spool' | 'printer';
  readonly id: string;
}

/** The spool or printer that a scanned code names, or null. Scanners type what they read, some with capitals only. */
export function scanned(text: string): Scanned | null {
  const trimmed = text.trim();
  const small = trimmed.toLowerCase();
  if (small.startsWith(SPOOL)) return { kind: 'spool', id: trimmed.slice(SPOOL.length).toUpperCase() };
  if (small.startsWith(PRINTER)) return { kind: 'printer', id: trimmed.slice(PRINTER.length).toUpperCase() };
  const inAddress = PRINTER_ADDRESS.exec(trimmed)?.[1];
  return inAddress === undefined ? null : { kind: 'printer', id: inAddress.toUpperCase() };
}
