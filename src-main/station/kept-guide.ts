import { createHash } from 'node:crypto';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type https from 'node:https';
import { GUIDE_ADDRESS } from '../../src-core/contract/guide-address.ts';
import type { Visitor } from '../operations/access/visitor.ts';
import type { Dispatcher } from '../operations/dispatcher.ts';

interface Kept {
  readonly tag: string;
  readonly json: string;
}

/**
 * The guide, two megabytes that stay the same as long as the program runs: written once, and sent to a browser once. A browser that
 * has it asks whether it still holds and is told so in a line. The first answer goes through the gate like any call; the guide
 * is for everybody who is let in.
 */
export function serveGuide(
  server: FastifyInstance<https.Server>,
  dispatcher: Pick<Dispatcher, 'dispatch'>,
  visitorOf: (request: FastifyRequest) => Visitor | null,
): void {
  let kept: Kept | null = null;
  server.get(`/${GUIDE_ADDRESS}`, async (request, reply): Promise<FastifyReply> => {
    const visitor = visitorOf(request);
    if (!visitor) return reply.code(403).send();
    if (!kept) {
      const answer = await dispatcher.dispatch('guide:read', {}, visitor);
      // Refused for now, as while the program starts: nothing to keep.
      if (!answer.ok) return reply.header('cache-control', 'no-store').send(answer);
      const json = JSON.stringify(answer);
      kept = { json, tag: `"${createHash('sha256').update(json).digest('base64url')}"` };
    }
    void reply.header('cache-control', 'private, no-cache').header('etag', kept.tag);
    if (request.headers['if-none-match']?.includes(kept.tag)) return reply.code(304).send();
    return reply.type('application/json; charset=utf-8').send(kept.json);
  });
}
