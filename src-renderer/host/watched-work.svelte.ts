import type { HostApi } from '../../src-core/contract/host-api.ts';
import type { Reply } from '../../src-core/contract/reply.ts';

const LOOK_EVERY_MS = 200;
const ID_BYTES = 12;

/** Long work at the host: how far it is, and a way to end it. */
export class WatchedWork {
  readonly #host: HostApi;
  #workId: string | null = null;
  /** Share done, 0 to 1. */
  share = $state(0);
  isUnderWay = $state(false);
  isStopping = $state(false);

  constructor(host: HostApi) {
    this.#host = host;
  }

  /** Begins the work under an id of its own and looks after it until it is answered. */
  async run<T>(begin: (workId: string) => Promise<Reply<T>>): Promise<Reply<T>> {
    const workId = newWorkId();
    this.#workId = workId;
    this.share = 0;
    this.isUnderWay = true;
    this.isStopping = false;
    const looking = setInterval(() => void this.#look(workId), LOOK_EVERY_MS);
    try {
      return await begin(workId);
    } finally {
      clearInterval(looking);
      this.isUnderWay = false;
      this.#workId = null;
    }
  }

  stop(): void {
    if (this.#workId === null) return;
    this.isStopping = true;
    void this.#host.call('work:stop', { workId: this.#workId });
  }

  async #look(workId: string): Promise<void> {
    const reply = await this.#host.call('work:look', { workId });
    // What comes late must not run the bar backwards.
    if (reply.ok && reply.value.share !== null && this.#workId === workId)
      this.share = Math.max(this.share, reply.value.share);
  }
}

/** `crypto.randomUUID` is missing on pages from another machine over plain HTTP. */
function newWorkId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(ID_BYTES));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
