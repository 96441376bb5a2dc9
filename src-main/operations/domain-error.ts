import type { ReplyErrorCode } from '../../src-core/contract/reply.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import type { Message } from '../../src-core/words/message.ts';

/** An expected failure of a call: becomes the error of its reply. Screens say it in their language, logs in English. */
export class DomainError extends Error {
  readonly code: ReplyErrorCode;
  readonly said: Message | readonly Message[];
  readonly current: unknown;

  constructor(code: ReplyErrorCode, said: Message | readonly Message[], current?: unknown) {
    super(inEnglish(said));
    this.code = code;
    this.said = said;
    this.current = current;
  }
}
