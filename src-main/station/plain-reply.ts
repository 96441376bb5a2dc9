import type { FastifyReply } from 'fastify';
import { refusals } from '../../src-core/words/en/refusals.ts';
import { failedReply } from '../operations/failed-reply.ts';
import { NOT_NOW_PAGE, PLAIN_PAGE_POLICY } from './plain-page.ts';

export const HTML = 'text/html; charset=utf-8';

/** A page without any of the program. */
export function plain(reply: FastifyReply, page: string): FastifyReply {
  return (
    reply
      .header('cache-control', 'no-store')
      .header('content-security-policy', PLAIN_PAGE_POLICY)
      // With less the browser would not say where a form comes from, and the guard refuses what does not.
      .header('referrer-policy', 'same-origin')
      .type(HTML)
      .send(page)
  );
}

/** For devices while nobody can say who they are: the casebook is away, or the program could not start. */
export function notNow(reply: FastifyReply, isFrontDoor: boolean): FastifyReply {
  if (isFrontDoor) return plain(reply.code(503), NOT_NOW_PAGE);
  return reply.code(503).send(failedReply('casebook-unavailable', refusals.casebookShut()));
}
