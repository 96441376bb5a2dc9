import type { ReplyErrorCode } from '../../src-core/contract/reply.ts';

/** An expected failure of a call: becomes the error of its reply. */
export class DomainError extends Error {
  readonly code: ReplyErrorCode;
  readonly current: unknown;

  constructor(code: ReplyErrorCode, message: string, current?: unknown) {
    super(message);
    this.code = code;
    this.current = current;
  }
}
