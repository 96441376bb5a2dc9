import { timingSafeEqual } from 'node:crypto';
import { refusals } from '../../src-core/words/en/refusals.ts';
import type { Message } from '../../src-core/words/message.ts';

/** What of a request the guard looks at. */
export interface GuardedRequest {
  readonly method: string;
  readonly host: string | undefined;
  readonly origin: string | undefined;
  /** What browsers say of where a request comes from and what it is for. */
  readonly fetchSite: string | undefined;
  readonly fetchMode: string | undefined;
  readonly sessionCookie: string | undefined;
  /** Of a device that has joined. */
  readonly deviceCookie: string | undefined;
  /** Asks for the page itself, not for a part of it. */
  readonly isFrontDoor: boolean;
  /** Asks for what anybody may have: the page that lets devices in, and what says that the station is there. */
  readonly isForAnybody: boolean;
  /** Of the printed address; null where the request has none. */
  readonly token: string | null;
}

export interface GuardSettings {
  readonly scheme: 'http' | 'https';
  /** "127.0.0.1:4173": by what names, with the port, this door is asked for. */
  readonly hosts: readonly string[];
  /** Null at a door of the network: only this machine knows a token. */
  readonly sessionToken: string | null;
}

export type Admission =
  | { readonly kind: 'refused'; readonly said: Message }
  /** A browser without a cookie that asks for a page: told how to get in. */
  | { readonly kind: 'stranger' }
  /** Comes by the printed address: gets the cookie. */
  | { readonly kind: 'entering' }
  /** Asks for what anybody may have. */
  | { readonly kind: 'anybody' }
  /** Says that it is this device: to be looked up. */
  | { readonly kind: 'device'; readonly deviceId: string; readonly secret: string }
  /** `client` tells one browser from another. */
  | { readonly kind: 'admitted'; readonly client: string };

/** Cookies know no ports: two stations in one browser would put each other's out. */
export function cookieName(port: number): string {
  return `beadwright_session_${port}`;
}

export function deviceCookieName(port: number): string {
  return `beadwright_device_${port}`;
}

/** The cookie of a browser: the token and a number of its own. A device's: its id and its secret. */
export function cookieValue(first: string, second: string): string {
  return `${first}.${second}`;
}

/** What the host part of an address says: the port of the scheme itself is left out by browsers. */
export function hostOf(scheme: 'http' | 'https', name: string, port: number): string {
  const written = name.includes(':') ? `[${name}]` : name;
  return port === (scheme === 'https' ? 443 : 80) ? written : `${written}:${port}`;
}

/**
 * Who is let in. Any page in any browser and any program on the machine can reach the loopback address, and anybody on it a
 * network, so: the Host must be ours (DNS rebinding), no other site may ask for anything, what is not a plain read must come from
 * our own origin, and all of it needs the cookie that only the printed address, or a code, gives.
 */
export function admissionOf(request: GuardedRequest, settings: GuardSettings): Admission {
  const { hosts, scheme, sessionToken } = settings;
  const refused = (said: Message): Admission => ({ kind: 'refused', said });
  if (!request.host || !hosts.includes(request.host.toLowerCase())) return refused(refusals.addressNotOurs());
  const isRead = request.method === 'GET' || request.method === 'HEAD';
  const isPage = isRead && (request.fetchMode ?? 'navigate') === 'navigate';
  const isFromElsewhere = request.fetchSite === 'cross-site' || request.fetchSite === 'same-site';
  if (isFromElsewhere && !isPage) return refused(refusals.fromAnotherSite());
  if (!isRead && (!request.origin || !hosts.some((host) => request.origin === `${scheme}://${host}`)))
    return refused(refusals.fromAnotherSite());
  if (request.isForAnybody) return { kind: 'anybody' };
  if (isRead && request.token !== null && sessionToken !== null)
    return isSame(request.token, sessionToken) ? { kind: 'entering' } : { kind: 'stranger' };
  const [token, client] = (request.sessionCookie ?? '').split('.');
  if (sessionToken !== null && token && client && isSame(token, sessionToken))
    return { kind: 'admitted', client };
  const [deviceId, secret] = (request.deviceCookie ?? '').split('.');
  if (deviceId && secret) return { kind: 'device', deviceId, secret };
  return unknownTo(request);
}

/** For whoever is not known: a page is told how to get in, everything else is refused. */
export function unknownTo({
  method,
  isFrontDoor,
}: Pick<GuardedRequest, 'method' | 'isFrontDoor'>): Admission {
  return (method === 'GET' || method === 'HEAD') && isFrontDoor
    ? { kind: 'stranger' }
    : { kind: 'refused', said: refusals.notLetIn() };
}

function isSame(a: string, b: string): boolean {
  const [left, right] = [Buffer.from(a), Buffer.from(b)];
  return left.length === right.length && timingSafeEqual(left, right);
}
