import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type https from 'node:https';
import { GUIDE_ADDRESS } from '../../src-core/contract/guide-address.ts';
import { contentHash } from '../../src-core/knowledge/content-hash.ts';
import type { ApplicationContext } from '../operations/application-context.ts';
import type { Visitor } from '../operations/access/visitor.ts';
import type { Inside } from './door-settings.ts';

/** The name of a guide as a browser keeps it: what it was made of, so that nobody has to make it to know that it is the same. */
export function guideTag(
  program: Pick<ApplicationContext, 'knowledge' | 'engineVersion' | 'programVersion'>,
): string {
  const { knowledge, engineVersion, programVersion } = program;
  return contentHash([programVersion, engineVersion, knowledge.version]);
}

/**
 * The guide, two megabytes that stay the same as long as the program runs: written once, and sent to a browser once. A browser that
 * has it asks whether it still holds and is told so in a line, though the program has just been started. The first answer goes
 * through the gate like any call; the guide is for everybody who is let in.
 */
export function serveGuide(
  server: FastifyInstance<https.Server>,
  { dispatcher, guideTag: tagNow }: Pick<Inside, 'dispatcher' | 'guideTag'>,
  visitorOf: (request: FastifyRequest) => Visitor | null,
): void {
  let kept: string | null = null;
  server.get(`/${GUIDE_ADDRESS}`, async (request, reply): Promise<FastifyReply> => {
    const visitor = visitorOf(request);
    if (!visitor) return reply.code(403).send();
    const name = tagNow?.() ?? null;
    const tag = name && `"${name}"`;
    if (tag) void reply.header('cache-control', 'private, no-cache').header('etag', tag);
    if (tag && request.headers['if-none-match']?.includes(tag)) return reply.code(304).send();
    if (!kept) {
      const answer = await dispatcher.dispatch('guide:read', {}, visitor);
      // Refused for now, as while the program starts: nothing to keep.
      if (!answer.ok) return reply.removeHeader('etag').header('cache-control', 'no-store').send(answer);
      kept = JSON.stringify(answer);
    }
    return reply.type('application/json; charset=utf-8').send(kept);
  });
}
