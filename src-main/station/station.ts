import { randomBytes } from 'node:crypto';
import path from 'node:path';
import fastifyCookie from '@fastify/cookie';
import fastifyHelmet from '@fastify/helmet';
import fastifyRateLimit from '@fastify/rate-limit';
import fastifyStatic from '@fastify/static';
import fastify, { type FastifyInstance } from 'fastify';
import { CONTENT_SECURITY_POLICY } from '../hosting/content-security-policy.ts';
import type { Dispatcher } from '../operations/dispatcher.ts';
import { refusalOfRequest } from './request-guard.ts';

const COOKIE = 'beadwright_session';
/** An imported casebook is the largest thing a screen sends. */
const LARGEST_BODY_BYTES = 70 * 1024 * 1024;

export interface StationSettings {
  /** 0 takes any free port. */
  readonly port: number;
  /** The built renderer. */
  readonly rendererFolder: string;
  readonly dispatcher: Dispatcher;
}

export interface Station {
  readonly address: string;
  close(): Promise<void>;
}

/** Serves screens and calls over HTTP on the loopback address only. */
export async function startStation(settings: StationSettings): Promise<Station> {
  const server = fastify({ bodyLimit: LARGEST_BODY_BYTES, logger: false });
  const sessionToken = randomBytes(32).toString('base64url');
  let port = settings.port;

  await server.register(fastifyHelmet, { contentSecurityPolicy: false, hsts: false });
  await server.register(fastifyCookie);
  await server.register(fastifyRateLimit, { max: 1200, timeWindow: '1 minute' });
  server.addHook('onRequest', async (request, reply) => {
    const refusal = refusalOfRequest(
      {
        method: request.method,
        host: request.headers.host,
        origin: request.headers.origin,
        sessionCookie: request.cookies[COOKIE],
      },
      { port, sessionToken },
    );
    void reply.header('content-security-policy', CONTENT_SECURITY_POLICY);
    if (refusal) await reply.code(403).send({ ok: false, error: { code: 'forbidden', message: refusal } });
  });
  await serveScreens(server, path.resolve(settings.rendererFolder), sessionToken);
  server.post<{ Params: { name: string } }>('/api/:name', async (request) =>
    settings.dispatcher.dispatch(request.params.name, request.body),
  );
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
  return { address: `http://127.0.0.1:${port}/`, close: () => server.close() };
}

async function serveScreens(server: FastifyInstance, folder: string, sessionToken: string): Promise<void> {
  await server.register(fastifyStatic, { root: folder, index: false, cacheControl: false });
  server.get('/', (_request, reply) =>
    reply
      .setCookie(COOKIE, sessionToken, { httpOnly: true, sameSite: 'strict', path: '/' })
      .header('cache-control', 'no-store')
      .sendFile('index.html'),
  );
}
