import type { CallName } from '../../src-core/contract/call-names.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';
import type { Reply } from '../../src-core/contract/reply.ts';

type Bridge = Readonly<Record<CallName, (input: unknown) => Promise<unknown>>>;

/** The desktop's bridge where the preload put one, otherwise the station over HTTP. */
export function createHostApi(bridge: Bridge | undefined): HostApi {
  const send = bridge ? (name: CallName, input: unknown) => bridge[name](input) : callStation;
  return {
    call: async (name, input) => {
      try {
        return (await send(name, plainCopy(input))) as Reply<never>;
      } catch (error) {
        const message = error instanceof Error ? error.message : String(error);
        return {
          ok: false,
          error: {
            code: 'internal',
            message: `Beadwright does not answer (${message}). What you entered is still here; try again.`,
          },
        };
      }
    },
  };
}

/** Reactive proxies cannot cross the bridge. */
function plainCopy(input: unknown): unknown {
  return JSON.parse(JSON.stringify(input));
}

/**
 * A station that was started anew has the port and the token of before, so this page's cookie still holds and a call sent
 * again goes through.
 */
async function callStation(name: CallName, input: unknown): Promise<unknown> {
  const response = await fetch(`/api/${name}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(input),
  });
  return response.json();
}
