import type { FastifyReply, FastifyRequest } from 'fastify';
import { fileCalls } from '../../src-core/contract/file-calls.ts';
import { photoAddress, photoAskedFor } from '../../src-core/contract/photo-address.ts';
import { refusals } from '../../src-core/words/en/refusals.ts';
import type { Visitor } from '../operations/access/visitor.ts';
import { failedReply } from '../operations/failed-reply.ts';
import type { Inside, Server } from './door-settings.ts';

/**
 * Takes calls with a file in them: the body is the file as it is, of the one type and within the one size that the contract says. It is
 * never unpacked on the way: packed bytes are no picture. Rights, content and the rest are the gate's, as of any call.
 */
export async function takeFiles(
  server: Server,
  { dispatcher }: Pick<Inside, 'dispatcher'>,
  visitorOf: (request: FastifyRequest) => Visitor | null,
): Promise<void> {
  // A room of its own: what is taken here as bytes is taken nowhere else.
  await server.register((room, _options, done) => {
    room.removeAllContentTypeParsers();
    for (const { type } of Object.values(fileCalls))
      room.addContentTypeParser(type, { parseAs: 'buffer' }, (_request, body, parsed) => parsed(null, body));
    for (const [name, { type, largestBytes }] of Object.entries(fileCalls))
      room.post<{ Querystring: { input?: unknown } }>(
        // A colon stands for itself where it is written twice.
        `/files/${name.replace(':', '::')}`,
        { bodyLimit: largestBytes },
        async (request, reply) => {
          const visitor = visitorOf(request);
          if (!visitor) return reply.code(403).send();
          if (request.headers['content-type']?.split(';')[0]?.trim() !== type)
            return reply.code(415).send(failedReply('bad-request', refusals.takesType({ name, type })));
          const rest = restOf(request.query.input);
          if (rest === null)
            return reply.code(400).send(failedReply('bad-request', refusals.inputNoObject()));
          const bytes = Buffer.isBuffer(request.body) ? new Uint8Array(request.body) : new Uint8Array();
          return reply.send(await dispatcher.dispatch(name, { ...rest, bytes }, visitor));
        },
      );
    done();
  });
}

/** Gives photos out by their hash: what is behind one never changes, so a browser keeps it, and may ask for a piece of it. */
export function givePhotos(server: Server, { readPhoto }: Pick<Inside, 'readPhoto'>): void {
  server.get(`/${photoAddress(':hash')}`, async (request, reply): Promise<FastifyReply> => {
    const hash = photoAskedFor(new URL(request.url, 'http://station').pathname);
    const photo = hash === null ? null : await readPhoto(hash);
    if (!photo)
      return reply
        .code(404)
        .header('cache-control', 'no-store')
        .send(failedReply('not-found', refusals.photoNotHere()));
    const tag = `"${hash}"`;
    void reply
      .header('cache-control', 'private, max-age=31536000, immutable')
      .header('etag', tag)
      .header('accept-ranges', 'bytes');
    const { 'if-none-match': known, 'if-range': ifStill, range } = request.headers;
    if (known?.includes(tag)) return reply.code(304).send();
    void reply.type('image/jpeg');
    const piece =
      range === undefined || (ifStill !== undefined && ifStill !== tag) ? null : pieceOf(range, photo.length);
    if (piece === null) return reply.send(photo);
    if (piece === 'none') return reply.code(416).header('content-range', `bytes */${photo.length}`).send();
    return reply
      .code(206)
      .header('content-range', `bytes ${piece.from}-${piece.to}/${photo.length}`)
      .send(photo.subarray(piece.from, piece.to + 1));
  });
}

/**
 * The one range that is asked for (RFC 9110, section 14.1.2), both ends included; null where all is to be given: there is none, it
 * cannot be read, or there are several. "none" where it lies behind the end.
 */
export function pieceOf(
  range: string,
  length: number,
): { readonly from: number; readonly to: number } | 'none' | null {
  const [, first, last] = /^bytes=(\d{0,15})-(\d{0,15})$/.exec(range.trim()) ?? [];
  if (first === undefined || last === undefined || (first === '' && last === '')) return null;
  if (first === '')
    return Number(last) === 0 ? 'none' : { from: Math.max(0, length - Number(last)), to: length - 1 };
  const from = Number(first);
  const to = last === '' ? length - 1 : Math.min(Number(last), length - 1);
  if (last !== '' && Number(last) < from) return null;
  return from >= length ? 'none' : { from, to };
}

function restOf(input: unknown): object | null {
  if (typeof input !== 'string') return null;
  try {
    const read: unknown = JSON.parse(input);
    return typeof read === 'object' && read !== null && !Array.isArray(read) ? read : null;
  } catch {
    return null;
  }
}
