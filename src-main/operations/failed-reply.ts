import type { Reply, ReplyErrorCode } from '../../src-core/contract/reply.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import type { Message } from '../../src-core/words/message.ts';

/** The reply to a call that went no further: screens say why in their language, logs and the command line in English. */
export function failedReply(
  code: ReplyErrorCode,
  said: Message | readonly Message[],
): Extract<Reply<never>, { ok: false }> {
  return { ok: false, error: { code, message: inEnglish(said), said } };
}
