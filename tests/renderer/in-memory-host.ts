import type { CallName } from '../../src-core/contract/call-names.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';
import type { Reply } from '../../src-core/contract/reply.ts';

export interface SentCall {
  readonly name: CallName;
  readonly input: unknown;
  /** Answers the call; it stays open until then. */
  readonly reply: (reply: Reply<unknown>) => void;
}

/** A host whose calls stay open until the test answers them, so that a test sees what happens meanwhile. */
export function createInMemoryHost(): { readonly host: HostApi; readonly sent: SentCall[] } {
  const sent: SentCall[] = [];
  const host: HostApi = {
    call: (name, input) =>
      new Promise((resolve) => {
        sent.push({ name, input, reply: (reply) => resolve(reply as never) });
      }),
  };
  return { host, sent };
}
