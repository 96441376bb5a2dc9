import type { CallName } from './call-names.ts';
import type { InputOf, OutputOf } from './calls.ts';
import type { Reply } from './reply.ts';

/** What a screen sees of its host, whichever host that is. */
export interface HostApi {
  call<N extends CallName>(name: N, input: InputOf<N>): Promise<Reply<OutputOf<N>>>;
}
