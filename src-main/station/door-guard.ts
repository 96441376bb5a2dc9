import { CONTENT_SECURITY_POLICY } from '../bootstrap/content-security-policy.ts';
import type { FastifyRequest } from 'fastify';
import { OWNER, type Visitor } from '../operations/access/visitor.ts';
import { failedReply } from '../operations/failed-reply.ts';
import type { DoorSettings, Inside, Server } from './door-settings.ts';
import type { Cookies } from './door-cookies.ts';
import { JOIN, STRANGER_PAGE } from './plain-page.ts';
import { notNow, plain } from './plain-reply.ts';
import {
  admissionOf,
  cookieName,
  deviceCookieName,
  hostOf,
  unknownTo,
  type GuardedRequest,
} from './request-guard.ts';

/** What anybody may ask for, by its very path: how to join, whether the station is there, and what it is shown as when installed. */
const FOR_ANYBODY: ReadonlySet<string> = new Set([
  JOIN,
  '/plain-page.css',
  '/health',
  '/ready',
  '/manifest.webmanifest',
  '/icon.svg',
  '/icon-192.png',
  '/icon-512.png',
]);

/** Who asks, once the guard has let a request in; `client` tells one browser or device from another. */
export interface Admitted {
  readonly visitor: Visitor;
  readonly client: string;
}

interface Guarding {
  readonly door: DoorSettings;
  readonly inside: Inside;
  readonly scheme: 'http' | 'https';
  readonly port: () => number;
  readonly cookies: Cookies;
  readonly admitted: WeakMap<FastifyRequest, Admitted>;
}

/** Lets in whoever may come in, before anything else looks at a request; `admitted` says who it was. */
export function guard(server: Server, { door, inside, scheme, port, cookies, admitted }: Guarding): void {
  server.addHook('onRequest', async (request, reply) => {
    const asked = guardedRequest(request, port());
    void reply
      .header('content-security-policy', CONTENT_SECURITY_POLICY)
      .header('referrer-policy', 'no-referrer');
    let admission = admissionOf(asked, {
      scheme,
      hosts: door.names().map((name) => hostOf(scheme, name, port()).toLowerCase()),
      sessionToken: door.token,
    });
    if (admission.kind === 'device') {
      const { deviceId, secret } = admission;
      const doorkeeper = inside.doorkeeper?.();
      // Not known is not the same as shut out: a page that stands waits, and keeps what was typed.
      if (!doorkeeper || !(await doorkeeper.isAtWork())) return notNow(reply, asked.isFrontDoor);
      let visitor: Visitor | null;
      try {
        visitor = await doorkeeper.recognise(deviceId, secret);
      } catch (error) {
        if (!doorkeeper.isAway(error)) throw error;
        return notNow(reply, asked.isFrontDoor);
      }
      if (visitor) {
        admitted.set(request, { visitor, client: deviceId });
        return undefined;
      }
      admission = unknownTo(asked);
    }
    switch (admission.kind) {
      case 'anybody':
        return undefined;
      case 'admitted':
        admitted.set(request, { visitor: OWNER, client: admission.client });
        return undefined;
      case 'entering':
        cookies.setSession(reply, door.token ?? '');
        return reply.header('cache-control', 'no-store').redirect('/', 303);
      case 'refused':
        return reply.code(403).send(failedReply('forbidden', admission.said));
      default:
        return plain(reply.code(401), STRANGER_PAGE);
    }
  });
}

function guardedRequest(request: FastifyRequest, port: number): GuardedRequest {
  return {
    method: request.method,
    host: request.headers.host,
    origin: request.headers.origin,
    fetchSite: headerOf(request, 'sec-fetch-site'),
    fetchMode: headerOf(request, 'sec-fetch-mode'),
    sessionCookie: request.cookies[cookieName(port)],
    deviceCookie: request.cookies[deviceCookieName(port)],
    ...askedFor(request),
  };
}

/**
 * By the path as it was sent: what a router would make of dots and slashes in it is no business of the guard's. The token is taken
 * at the front door only, so that it never lies in the address of anything else.
 */
function askedFor(request: FastifyRequest): Pick<GuardedRequest, 'isFrontDoor' | 'isForAnybody' | 'token'> {
  const asked = pathOf(request);
  const [, query = ''] = request.url.split('?');
  const isFrontDoor = asked === '/';
  return {
    isFrontDoor,
    isForAnybody: FOR_ANYBODY.has(asked),
    token: isFrontDoor ? new URLSearchParams(query).get('token') : null,
  };
}

/** Without what follows it: the token stands there. */
export function pathOf({ url }: FastifyRequest): string {
  return url.split('?')[0] ?? '';
}

function headerOf(request: FastifyRequest, name: string): string | undefined {
  const value = request.headers[name];
  return typeof value === 'string' ? value : undefined;
}
