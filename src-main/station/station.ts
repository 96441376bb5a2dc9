import { randomBytes } from 'node:crypto';
import path from 'node:path';
import fastifyCookie from '@fastify/cookie';
import fastifyHelmet from '@fastify/helmet';
import fastifyRateLimit from '@fastify/rate-limit';
import fastifyStatic from '@fastify/static';
import fastify, { type FastifyInstance, type FastifyRequest } from 'fastify';
import type { Change } from '../../src-core/contract/change.ts';
import { photoAddress, photoAskedFor } from '../../src-core/contract/photo-address.ts';
import { CONTENT_SECURITY_POLICY } from '../bootstrap/content-security-policy.ts';
import type { StartFault } from '../bootstrap/start-fault.ts';
import type { Dispatcher } from '../operations/dispatcher.ts';
import { ChangeStreams } from './change-streams.ts';
import { admissionOf, cookieName, cookieValue } from './request-guard.ts';
import { PLAIN_PAGE_POLICY, startFaultPage, STRANGER_PAGE, TRY_AGAIN } from './plain-page.ts';

/** An imported casebook is the largest thing a screen sends. */
const LARGEST_BODY_BYTES = 70 * 1024 * 1024;
/** A browser that asks more often than this is out of hand; others are not held up by it. */
const MOST_REQUESTS_A_MINUTE = 1200;
/** A request must have come in whole by then. */
const REQUEST_LIMIT_MS = 120_000;
const HEADERS_LIMIT_MS = 20_000;
/** What is under way when the station ends has this long. */
const CLOSING_MS = 2000;
/** A bookmark works for half a year after the last entry by the printed address. */
const COOKIE_SECONDS = 180 * 24 * 3600;

export interface StationSettings {
  /** 0 takes any free port. */
  readonly port: number;
  /** What lets a browser in. */
  readonly token: string;
  /** The built renderer. */
  readonly rendererFolder: string;
  readonly dispatcher: Pick<Dispatcher, 'dispatch'>;
  /** What the start failed of is shown in place of the screens, until it is gone. */
  readonly start?: {
    readonly fault: StartFault | null;
    readonly program: unknown;
    tryAgain(): Promise<void>;
  };
  /** The page of the screens. */
  readonly readPage: () => Promise<string>;
  /** What is written, for the screens that follow it. */
  readonly followChanges: (listener: (change: Change) => void) => () => void;
  /** A photo by its hash, or null. */
  readonly readPhoto: (hash: string) => Buffer | null;
}

export interface Station {
  readonly port: number;
  /** With the token: whoever has it is let in. */
  readonly address: string;
  /** Ends within seconds, whatever a client does. */
  close(): Promise<void>;
}

/** Serves screens and calls over HTTP on the loopback address only. */
export async function startStation(settings: StationSettings): Promise<Station> {
  const server = fastify({
    bodyLimit: LARGEST_BODY_BYTES,
    logger: false,
    requestTimeout: REQUEST_LIMIT_MS,
    http: { headersTimeout: HEADERS_LIMIT_MS },
  });
  let port = settings.port;

  await server.register(fastifyHelmet, { contentSecurityPolicy: false, hsts: false });
  await server.register(fastifyCookie);
  guard(server, () => ({ port, sessionToken: settings.token }));
  // After the guard: what it refuses costs nobody a request.
  await server.register(fastifyRateLimit, {
    max: MOST_REQUESTS_A_MINUTE,
    timeWindow: '1 minute',
    keyGenerator: (request) => request.cookies[cookieName(port)] ?? request.ip,
  });
  await serveScreens(server, path.resolve(settings.rendererFolder), settings);
  // The button of a plain page sends a form with nothing in it.
  server.addContentTypeParser('application/x-www-form-urlencoded', (_request, _body, done) => done(null));
  server.post(TRY_AGAIN, async (_request, reply) => {
    await settings.start?.tryAgain();
    return reply.redirect('/', 303);
  });
  server.post<{ Params: { name: string } }>('/api/:name', async (request) =>
    settings.dispatcher.dispatch(request.params.name, request.body),
  );
  const streams = new ChangeStreams(settings.followChanges);
  server.addHook('preClose', async () => streams.close());
  server.get('/changes', async (request, reply) => {
    const stream = streams.open(request.cookies[cookieName(port)] ?? request.ip);
    if (!stream)
      return reply
        .code(429)
        .send({ ok: false, error: { code: 'refused', message: 'too many open screens' } });
    return reply.header('cache-control', 'no-store').type('text/event-stream; charset=utf-8').send(stream);
  });
  server.get(`/${photoAddress(':hash')}`, async (request, reply) => {
    const asked = photoAskedFor(new URL(request.url, 'http://station').pathname);
    const photo = asked === null ? null : settings.readPhoto(asked);
    if (!photo)
      return reply.code(404).send({ ok: false, error: { code: 'not-found', message: 'no such photo' } });
    return reply
      .header('cache-control', 'private, max-age=31536000, immutable')
      .type('image/jpeg')
      .send(photo);
  });
  server.setErrorHandler(async (error, _request, reply) => {
    const status =
      error instanceof Error && 'statusCode' in error && typeof error.statusCode === 'number'
        ? error.statusCode
        : 500;
    const message = error instanceof Error ? error.message : 'the request could not be read';
    await reply.code(status).send({ ok: false, error: { code: 'bad-request', message } });
  });

  await server.listen({ host: '127.0.0.1', port: settings.port });
  const bound = server.server.address();
  if (bound === null || typeof bound === 'string') throw new Error('the station has no port');
  port = bound.port;
  return {
    port,
    address: `http://127.0.0.1:${port}/?token=${settings.token}`,
    close: async () => {
      const closed = server.close();
      server.server.closeIdleConnections();
      const limit = setTimeout(() => server.server.closeAllConnections(), CLOSING_MS);
      await closed;
      clearTimeout(limit);
    },
  };
}

function guard(server: FastifyInstance, settings: () => { port: number; sessionToken: string }): void {
  server.addHook('onRequest', async (request, reply) => {
    const { port, sessionToken } = settings();
    const admission = admissionOf(
      {
        method: request.method,
        host: request.headers.host,
        origin: request.headers.origin,
        fetchSite: headerOf(request, 'sec-fetch-site'),
        fetchMode: headerOf(request, 'sec-fetch-mode'),
        sessionCookie: request.cookies[cookieName(port)],
        ...frontDoor(request),
      },
      { port, sessionToken },
    );
    void reply
      .header('content-security-policy', CONTENT_SECURITY_POLICY)
      .header('referrer-policy', 'no-referrer');
    switch (admission.kind) {
      case 'admitted':
        return undefined;
      case 'refused':
        return reply.code(403).send({ ok: false, error: { code: 'forbidden', message: admission.message } });
      case 'stranger':
        return reply
          .code(401)
          .header('cache-control', 'no-store')
          .type('text/html; charset=utf-8')
          .send(STRANGER_PAGE);
      case 'entering': {
        const value = cookieValue(sessionToken, randomBytes(9).toString('base64url'));
        return reply
          .setCookie(cookieName(port), value, {
            httpOnly: true,
            sameSite: 'strict',
            path: '/',
            maxAge: COOKIE_SECONDS,
          })
          .header('cache-control', 'no-store')
          .redirect('/', 303);
      }
    }
  });
}

/** The token is taken at the front door only, so that it never lies in the address of anything else. */
function frontDoor(request: FastifyRequest): { isFrontDoor: boolean; token: string | null } {
  if (!URL.canParse(request.url, 'http://station')) return { isFrontDoor: false, token: null };
  const { pathname, searchParams } = new URL(request.url, 'http://station');
  return { isFrontDoor: pathname === '/', token: pathname === '/' ? searchParams.get('token') : null };
}

function headerOf(request: FastifyRequest, name: string): string | undefined {
  const value = request.headers[name];
  return typeof value === 'string' ? value : undefined;
}

async function serveScreens(
  server: FastifyInstance,
  folder: string,
  { readPage, start }: Pick<StationSettings, 'readPage' | 'start'>,
): Promise<void> {
  await server.register(fastifyStatic, {
    root: folder,
    index: false,
    cacheControl: false,
    // Their names carry a hash of what is in them: a browser need never ask for them again.
    setHeaders: (reply, file) => {
      if (path.dirname(file) === path.join(folder, 'assets'))
        void reply.header('cache-control', 'private, max-age=31536000, immutable');
    },
  });
  server.get('/', async (_request, reply) => {
    void reply.header('cache-control', 'no-store').type('text/html; charset=utf-8');
    if (!start?.fault) return reply.send(await readPage());
    return (
      reply
        .header('content-security-policy', PLAIN_PAGE_POLICY)
        // With less the browser would not say where the form comes from, and the guard refuses what does not.
        .header('referrer-policy', 'same-origin')
        .send(startFaultPage(start.fault, start.program ? 'Go on here' : 'Try again'))
    );
  });
}
