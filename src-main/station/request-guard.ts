import { timingSafeEqual } from 'node:crypto';

/** What of a request the guard looks at. */
export interface GuardedRequest {
  readonly method: string;
  readonly host: string | undefined;
  readonly origin: string | undefined;
  readonly sessionCookie: string | undefined;
}

export interface GuardSettings {
  readonly port: number;
  readonly sessionToken: string;
}

/**
 * Why a request is turned away, or null. Any page in any browser and any process on the machine can reach the loopback
 * address, so: the Host must be ours (DNS rebinding), anything that is not a plain read must come from our own origin
 * and carry the cookie that this start of the station gave out.
 */
export function refusalOfRequest(request: GuardedRequest, settings: GuardSettings): string | null {
  const hosts = [`127.0.0.1:${settings.port}`, `localhost:${settings.port}`];
  if (!request.host || !hosts.includes(request.host)) return 'this address does not belong to the station';
  if (request.method === 'GET' || request.method === 'HEAD') return null;
  if (!request.origin || !hosts.some((host) => request.origin === `http://${host}`))
    return 'the request comes from another site';
  if (!request.sessionCookie || !isSame(request.sessionCookie, settings.sessionToken)) {
    return 'the station was restarted; load the page again';
  }
  return null;
}

function isSame(a: string, b: string): boolean {
  const [left, right] = [Buffer.from(a), Buffer.from(b)];
  return left.length === right.length && timingSafeEqual(left, right);
}
