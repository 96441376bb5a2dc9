import type https from 'node:https';
import path from 'node:path';
import fastifyCompress from '@fastify/compress';
import fastifyCookie from '@fastify/cookie';
import fastifyHelmet from '@fastify/helmet';
import fastifyRateLimit from '@fastify/rate-limit';
import fastifyStatic from '@fastify/static';
import fastify, { type FastifyRequest } from 'fastify';
import type { Doorkeeper } from '../operations/access/doorkeeper.ts';
import type { Visitor } from '../operations/access/visitor.ts';
import { failedReply } from '../operations/failed-reply.ts';
import { refusals } from '../../src-core/words/en/refusals.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import type { Message } from '../../src-core/words/message.ts';
import { ChangeStreams } from './change-streams.ts';
import { Cookies } from './door-cookies.ts';
import { guard, pathOf, type Admitted } from './door-guard.ts';
import type { DoorSettings, Inside, Server } from './door-settings.ts';
import { givePhotos, takeFiles } from './file-routes.ts';
import { serveGuide } from './kept-guide.ts';
import { JOIN, joinPage, PLAIN_PAGE_STYLE, startFaultPage, STRANGER_PAGE, TRY_AGAIN } from './plain-page.ts';
import { HTML, notNow, plain } from './plain-reply.ts';

/** An imported casebook is the largest thing a screen sends. */
const LARGEST_BODY_BYTES = 70 * 1024 * 1024;
/** A code and its name: nothing else is taken from somebody whom nobody knows. */
const LARGEST_JOIN_BYTES = 2048;
/** A browser that asks more often than this is out of hand; others are not held up by it. */
const MOST_REQUESTS_A_MINUTE = 1200;
const MOST_JOINS_A_MINUTE = 30;
/** A request must have come in whole by then. */
const REQUEST_LIMIT_MS = 120_000;
const HEADERS_LIMIT_MS = 20_000;
/** Shorter answers gain nothing by it. */
const LEAST_COMPRESSED_BYTES = 2048;
/** What is under way when the station ends has this long. */
const CLOSING_MS = 2000;

const SAID_OF_STATUS: ReadonlyMap<number, () => Message> = new Map([
  [413, refusals.tooLargeHere],
  [415, refusals.kindNotTaken],
]);

export interface Door {
  readonly port: number;
  readonly scheme: 'http' | 'https';
  /** Takes another certificate from the next connection on. */
  useCertificate(certificate: NonNullable<DoorSettings['certificate']>): void;
  /** Ends within seconds, whatever a client does. */
  close(): Promise<void>;
}

/** Serves screens and calls over HTTP or HTTPS, to whoever the guard lets in. */
export async function openDoor(door: DoorSettings, inside: Inside): Promise<Door> {
  const server: Server = fastify({
    bodyLimit: LARGEST_BODY_BYTES,
    logger: false,
    requestTimeout: REQUEST_LIMIT_MS,
    // Null means HTTP.
    https: door.certificate as https.ServerOptions,
    // The contract checks what comes in; the compilers that Fastify would bring for schemas of routes took a tenth of the start.
    schemaController: { compilersFactory: { buildValidator: noSchemas, buildSerializer: noSchemas } },
  });
  server.server.headersTimeout = HEADERS_LIMIT_MS;
  const scheme = door.certificate ? 'https' : 'http';
  let port = door.port;
  const admitted = new WeakMap<FastifyRequest, Admitted>();
  const cookies = new Cookies(() => port, scheme === 'https');

  await server.register(fastifyHelmet, { contentSecurityPolicy: false, hsts: false });
  await server.register(fastifyCookie);
  // A tablet at the far end of the shop: a tenth of the way. Before the files are served, as it must be.
  await server.register(fastifyCompress, {
    globalDecompression: false,
    threshold: LEAST_COMPRESSED_BYTES,
    encodings: ['gzip', 'identity'],
  });
  guard(server, { door, inside, scheme, port: () => port, cookies, admitted });
  // Both before the rooms that take after them.
  server.addHook('onResponse', (request, reply, done) => {
    inside.log?.answered({
      method: request.method,
      path: pathOf(request),
      status: reply.statusCode,
      milliseconds: Math.round(reply.elapsedTime),
      who: admitted.get(request)?.client ?? null,
    });
    done();
  });
  server.setErrorHandler(async (error, request, reply) => {
    if (inside.doorkeeper?.()?.isAway(error)) return notNow(reply, pathOf(request) === '/');
    const status =
      error instanceof Error && 'statusCode' in error && typeof error.statusCode === 'number'
        ? error.statusCode
        : 500;
    const said = SAID_OF_STATUS.get(status)?.() ?? refusals.unreadRequest({ message: wordsOf(error) });
    return reply.code(status).send(failedReply('bad-request', said));
  });
  // After the guard: what it refuses costs nobody a request.
  await server.register(fastifyRateLimit, {
    max: MOST_REQUESTS_A_MINUTE,
    timeWindow: '1 minute',
    keyGenerator: (request) => admitted.get(request)?.client ?? request.ip,
  });
  const visitorOf = (request: FastifyRequest) => admitted.get(request)?.visitor ?? null;
  await serveScreens(server, inside, { visitorOf, cookies });
  serveJoining(server, inside, cookies);
  serveCalls(server, inside, { visitorOf, cookies });
  await takeFiles(server, inside, visitorOf);
  givePhotos(server, inside);
  serveGuide(server, inside, visitorOf);
  serveChanges(server, inside, admitted);
  serveState(server, inside);
  await server.listen({ host: door.address, port: door.port });
  const bound = server.server.address();
  if (bound === null || typeof bound === 'string') throw new Error('the station has no port');
  port = bound.port;
  return {
    port,
    scheme,
    useCertificate: (certificate) => server.server.setSecureContext(certificate),
    close: async () => {
      const closed = server.close();
      server.server.closeIdleConnections();
      const limit = setTimeout(() => server.server.closeAllConnections(), CLOSING_MS);
      await closed;
      clearTimeout(limit);
    },
  };
}

interface Answering {
  readonly visitorOf: (request: FastifyRequest) => Visitor | null;
  readonly cookies: Cookies;
}

async function serveScreens(
  server: Server,
  { rendererFolder, readPage, start, doorkeeper }: Inside,
  { visitorOf, cookies }: Answering,
): Promise<void> {
  const folder = path.resolve(rendererFolder);
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
  server.get('/plain-page.css', (_request, reply) =>
    reply.type('text/css; charset=utf-8').send(PLAIN_PAGE_STYLE),
  );
  server.get('/', async (request, reply) => {
    const visitor = visitorOf(request);
    if (!visitor) return plain(reply.code(401), STRANGER_PAGE);
    if (start?.fault) return plain(reply, startFaultPage(start.fault, Boolean(start.program)));
    if (visitor.kind === 'device') {
      const secret = await doorkeeper?.()?.rotate(visitor.deviceId, false);
      if (secret) cookies.setDevice(reply, visitor.deviceId, secret);
    }
    return (
      reply
        .header('cache-control', 'no-store')
        // Tells the page itself from whatever else may stand in its place (`offline-shell.js`).
        .header('x-beadwright-screens', '1')
        .type(HTML)
        .send(await readPage(visitor))
    );
  });
  server.post(TRY_AGAIN, async (_request, reply) => {
    await start?.tryAgain();
    return reply.redirect('/', 303);
  });
}

function serveJoining(server: Server, { doorkeeper }: Inside, cookies: Cookies): void {
  // Forms of plain pages: a button with nothing in it, or a code.
  server.addContentTypeParser(
    'application/x-www-form-urlencoded',
    { parseAs: 'string', bodyLimit: LARGEST_JOIN_BYTES },
    (_request, body, done) => done(null, new URLSearchParams(String(body))),
  );
  server.get<{ Querystring: { code?: unknown } }>(JOIN, (request, reply) => {
    const { code } = request.query;
    return plain(reply, joinPage(typeof code === 'string' ? code.slice(0, 40) : ''));
  });
  server.post(
    JOIN,
    { config: { rateLimit: { max: MOST_JOINS_A_MINUTE, timeWindow: '1 minute' } } },
    async (request, reply) => {
      const code = request.body instanceof URLSearchParams ? (request.body.get('code') ?? '') : '';
      const joined = await doorkeeper?.()?.join(code, request.ip);
      if (!joined?.ok)
        return plain(reply.code(403), joinPage('', inEnglish(joined?.said ?? refusals.onlyStarting())));
      cookies.setDevice(reply, joined.deviceId, joined.secret);
      return reply.header('cache-control', 'no-store').redirect('/', 303);
    },
  );
}

function serveCalls(
  server: Server,
  { dispatcher, doorkeeper }: Inside,
  { visitorOf, cookies }: Answering,
): void {
  server.post<{ Params: { name: string } }>('/api/:name', async (request, reply) => {
    const visitor = visitorOf(request);
    if (!visitor) return reply.code(403).send();
    const { name } = request.params;
    const answer = await dispatcher.dispatch(name, request.body, visitor);
    // What the device may do has changed: a secret of before must not have come along.
    if (answer.ok && visitor.kind === 'device' && ['access:sign-in', 'access:sign-out'].includes(name)) {
      const secret = await doorkeeper?.()?.rotate(visitor.deviceId, true);
      if (secret) cookies.setDevice(reply, visitor.deviceId, secret);
    }
    return reply.send(answer);
  });
}

function serveChanges(
  server: Server,
  { followChanges, doorkeeper }: Inside,
  admitted: WeakMap<FastifyRequest, Admitted>,
): void {
  const streams = new ChangeStreams(followChanges);
  const unfollow = followChanges(({ topics }) => {
    if (topics.includes('access')) void endOfThoseShutOut(streams, doorkeeper?.() ?? null);
  });
  server.addHook('preClose', async () => {
    unfollow();
    streams.close();
  });
  server.get('/changes', async (request, reply) => {
    const who = admitted.get(request);
    const stream = who && streams.open(who.client, who.visitor.kind === 'device');
    if (!stream) return reply.code(429).send(failedReply('refused', refusals.manyScreens()));
    return reply.header('cache-control', 'no-store').type('text/event-stream; charset=utf-8').send(stream);
  });
}

async function endOfThoseShutOut(streams: ChangeStreams, doorkeeper: Doorkeeper | null): Promise<void> {
  try {
    for (const deviceId of streams.devices)
      if (!(await doorkeeper?.isLetIn(deviceId))) streams.endOf(deviceId);
  } catch {
    // The database went away in between: everything is looked at again once it is back.
  }
}

/** For whoever looks after the machine: that the process answers, and that it can take cases. Nothing else is said. */
function serveState(server: Server, { start, doorkeeper }: Inside): void {
  server.get('/health', (_request, reply) =>
    reply.header('cache-control', 'no-store').send({ isHealthy: true }),
  );
  server.get('/ready', async (_request, reply) => {
    const isReady = !start?.fault && (await doorkeeper?.()?.isAtWork()) === true;
    return reply
      .code(isReady ? 200 : 503)
      .header('cache-control', 'no-store')
      .send({ isReady });
  });
}

function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function noSchemas(): never {
  throw new Error('routes of the station state no schemas: the contract checks what comes in');
}
