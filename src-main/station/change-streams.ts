import { PassThrough } from 'node:stream';
import type { Change } from '../../src-core/contract/change.ts';

/** A screen that has heard nothing for some of these counts its station as lost, millisecond. */
export const BEAT_MS = 10_000;
/** Screens that one browser or tablet may have open at a time. */
const MOST_OF_ONE_CLIENT = 24;
const MOST_IN_ALL = 500;
/** A reader that lags behind by this much is cut off: it comes back and reads everything anew. */
const LARGEST_BACKLOG_BYTES = 64 * 1024;

/** Open streams of server-sent events: "hello" at the beginning, "change" as they come, and "beat" in between. */
export class ChangeStreams {
  readonly #open = new Map<PassThrough, { readonly client: string; readonly isDevice: boolean }>();
  readonly #unfollow: () => void;
  readonly #beating: NodeJS.Timeout;

  constructor(follow: (listener: (change: Change) => void) => () => void) {
    this.#unfollow = follow((change) => this.#tell('change', JSON.stringify(change)));
    this.#beating = setInterval(() => this.#tell('beat', ''), BEAT_MS);
    this.#beating.unref();
  }

  /** A stream for one screen of a client; null where that has too many open, or all together have. */
  open(client: string, isDevice: boolean): PassThrough | null {
    const own = [...this.#open.values()].filter((one) => one.client === client).length;
    if (own >= MOST_OF_ONE_CLIENT || this.#open.size >= MOST_IN_ALL) return null;
    const stream = new PassThrough();
    stream.on('error', () => undefined);
    stream.on('close', () => this.#open.delete(stream));
    this.#open.set(stream, { client, isDevice });
    stream.write(eventOf('hello', ''));
    return stream;
  }

  /** Devices that follow. */
  get devices(): ReadonlySet<string> {
    return new Set([...this.#open.values()].filter(({ isDevice }) => isDevice).map(({ client }) => client));
  }

  /** Ends the streams of a client that may hear nothing any more. */
  endOf(client: string): void {
    for (const [stream, one] of this.#open) if (one.client === client) stream.end();
  }

  close(): void {
    clearInterval(this.#beating);
    this.#unfollow();
    for (const stream of this.#open.keys()) stream.end();
  }

  #tell(event: string, data: string): void {
    for (const stream of this.#open.keys())
      if (stream.writableLength + stream.readableLength > LARGEST_BACKLOG_BYTES) stream.destroy();
      else stream.write(eventOf(event, data));
  }
}

function eventOf(event: string, data: string): string {
  return `event: ${event}\ndata: ${data}\n\n`;
}
