import { timingSafeEqual } from 'node:crypto';

/** What of a request the guard looks at. */
export interface GuardedRequest {
  readonly method: string;
  readonly host: string | undefined;
  readonly origin: string | undefined;
  /** What browsers say of where a request comes from and what it is for. */
  readonly fetchSite: string | undefined;
  readonly fetchMode: string | undefined;
  readonly sessionCookie: string | undefined;
  /** Asks for the page itself, not for a part of it. */
  readonly isFrontDoor: boolean;
  /** Of the printed address; null where the request has none. */
  readonly token: string | null;
}

export interface GuardSettings {
  readonly port: number;
  readonly sessionToken: string;
}

export type Admission =
  | { readonly kind: 'refused'; readonly message: string }
  /** A browser without the cookie that asks for a page: told how to get in. */
  | { readonly kind: 'stranger' }
  /** Comes by the printed address: gets the cookie. */
  | { readonly kind: 'entering' }
  /** `client` tells one browser from another. */
  | { readonly kind: 'admitted'; readonly client: string };

/** Cookies know no ports: two stations in one browser would put each other's out. */
export function cookieName(port: number): string {
  return `beadwright_session_${port}`;
}

/** The cookie of a browser: the token and a number of its own. */
export function cookieValue(token: string, client: string): string {
  return `${token}.${client}`;
}

/**
 * Who is let in. Any page in any browser and any program on the machine can reach the loopback address, so: the Host must
 * be ours (DNS rebinding), no other site may ask for anything, what is not a plain read must come from our own origin,
 * and all of it needs the cookie that only the printed address gives.
 */
export function admissionOf(request: GuardedRequest, settings: GuardSettings): Admission {
  const hosts = [`127.0.0.1:${settings.port}`, `localhost:${settings.port}`];
  const refused = (message: string): Admission => ({ kind: 'refused', message });
  if (!request.host || !hosts.includes(request.host))
    return refused('this address does not belong to the station');
  const isRead = request.method === 'GET' || request.method === 'HEAD';
  const isPage = isRead && (request.fetchMode ?? 'navigate') === 'navigate';
  const isFromElsewhere = request.fetchSite === 'cross-site' || request.fetchSite === 'same-site';
  if (isFromElsewhere && !isPage) return refused('the request comes from another site');
  if (!isRead && (!request.origin || !hosts.some((host) => request.origin === `http://${host}`)))
    return refused('the request comes from another site');
  if (isRead && request.token !== null)
    return isSame(request.token, settings.sessionToken) ? { kind: 'entering' } : { kind: 'stranger' };
  const [token, client] = (request.sessionCookie ?? '').split('.');
  if (token && client && isSame(token, settings.sessionToken)) return { kind: 'admitted', client };
  return isRead && request.isFrontDoor
    ? { kind: 'stranger' }
    : refused('this browser has not been let in: open the address that Beadwright printed when it started');
}

function isSame(a: string, b: string): boolean {
  const [left, right] = [Buffer.from(a), Buffer.from(b)];
  return left.length === right.length && timingSafeEqual(left, right);
}
