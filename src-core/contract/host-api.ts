import type { CallName } from './call-names.ts';
import type { InputOf, OutputOf } from './calls.ts';
import type { Change } from './change.ts';
import type { Reply } from './reply.ts';

/** What a screen hears without having asked. */
export type HostNotice =
  | { readonly kind: 'change'; readonly change: Change }
  /** The host is there (again): what changed meanwhile was not told. */
  | { readonly kind: 'connected' }
  | { readonly kind: 'lost' }
  /** The host is there, and lets this page in no more. */
  | { readonly kind: 'shut-out' };

/** What a screen sees of its host, whichever host that is. */
export interface HostApi {
  call<N extends CallName>(name: N, input: InputOf<N>): Promise<Reply<OutputOf<N>>>;
}

/** A host that also tells what changes. */
export interface LiveHostApi extends HostApi {
  /** Tells what changes, from whichever screen, until the function returned is called. */
  follow(listener: (notice: HostNotice) => void): () => void;
}
