import type { CallName } from '../../src-core/contract/call-names.ts';
import type { Change } from '../../src-core/contract/change.ts';
import { fileCallAddress, fileCalls, isFileCall } from '../../src-core/contract/file-calls.ts';
import { GUIDE_ADDRESS } from '../../src-core/contract/guide-address.ts';
import type { LiveHostApi } from '../../src-core/contract/host-api.ts';
import type { Reply } from '../../src-core/contract/reply.ts';
import { told } from '../display/told.ts';
import { StationChanges } from './station-changes.ts';
import { m } from '../messages/en/host.ts';

/** What the desktop's preload gives the page. */
export type Bridge = Readonly<Record<CallName, (input: unknown) => Promise<unknown>>> & {
  followChanges(listener: (change: unknown) => void): () => void;
};

/** The desktop's bridge where the preload put one, otherwise the station over HTTP. */
export function createHostApi(bridge: Bridge | undefined): LiveHostApi {
  return bridge ? overBridge(bridge) : overHttp();
}

function overBridge(bridge: Bridge): LiveHostApi {
  return {
    call: (name, input) => answered(() => bridge[name](plainCopy(input))),
    // The bridge is there as long as the page is.
    follow: (listener) =>
      bridge.followChanges((change) => listener({ kind: 'change', change: change as Change })),
  };
}

function overHttp(): LiveHostApi {
  const changes = new StationChanges();
  return {
    call: (name, input) =>
      answered(async () => {
        try {
          return await callStation(name, input);
        } catch (error) {
          changes.suspect();
          throw error;
        }
      }),
    follow: (listener) => changes.follow(listener),
  };
}

async function answered(send: () => Promise<unknown>): Promise<Reply<never>> {
  try {
    return inWords((await send()) as Reply<never>);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return {
      ok: false,
      error: {
        code: 'internal',
        message: m.beadwrightDoesNotAnswerWhatYou({ message }),
      },
    };
  }
}

/** Why a call was refused, in the page's language; without ids (an older host) as the host said it. */
function inWords(reply: Reply<never>): Reply<never> {
  if (reply.ok || reply.error.said === undefined) return reply;
  return { ...reply, error: { ...reply.error, message: told(reply.error.said) } };
}

/** Reactive proxies cannot cross the bridge; bytes of a file cross it as they are. */
function plainCopy(input: unknown): unknown {
  const { file, rest } = apart(input);
  const copy: unknown = JSON.parse(JSON.stringify(rest));
  return file ? { ...(copy as object), bytes: file } : copy;
}

/** The bytes of a file in an input, and what goes beside them. */
function apart(input: unknown): { readonly file: Uint8Array<ArrayBuffer> | null; readonly rest: unknown } {
  if (typeof input !== 'object' || input === null || !('bytes' in input)) return { file: null, rest: input };
  const { bytes, ...rest } = input;
  return bytes instanceof Uint8Array ? { file: new Uint8Array(bytes), rest } : { file: null, rest: input };
}

/**
 * A station that was started anew has the port and the token of before, so this page's cookie still holds and a call sent
 * again goes through.
 */
async function callStation(name: CallName, input: unknown): Promise<unknown> {
  const response = await (name === 'guide:read' ? fetch(`/${GUIDE_ADDRESS}`) : post(name, input));
  return response.json();
}

function post(name: CallName, input: unknown): Promise<Response> {
  const { file, rest } = apart(input);
  if (file && isFileCall(name))
    return fetch(`/${fileCallAddress(name, rest)}`, {
      method: 'POST',
      headers: { 'content-type': fileCalls[name].type },
      body: file,
    });
  return pastThePage(JSON.stringify(input), (body, keepalive) =>
    fetch(`/api/${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body,
      keepalive,
    }),
  );
}

/** Browsers take 64 KiB of such bodies at a time (Fetch standard, "HTTP-network-or-cache fetch"), and not many requests. */
const MOST_KEPT_CHARACTERS = 16_000;
const MOST_KEPT_CALLS = 8;
const kept = { characters: 0, calls: 0 };

/**
 * Sends a call so that it gets there though the page is left or reloaded in the same moment: what was pressed counts. Where there
 * is no room for more of them it goes as long as the page is there.
 */
async function pastThePage(
  body: string,
  send: (body: string, keepalive: boolean) => Promise<Response>,
): Promise<Response> {
  const hasRoom = kept.calls < MOST_KEPT_CALLS && kept.characters + body.length <= MOST_KEPT_CHARACTERS;
  if (!hasRoom) return send(body, false);
  kept.calls++;
  kept.characters += body.length;
  try {
    return await send(body, true);
  } finally {
    kept.calls--;
    kept.characters -= body.length;
  }
}
