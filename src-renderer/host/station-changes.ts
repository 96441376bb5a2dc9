import type { Change } from '../../src-core/contract/change.ts';
import type { HostNotice } from '../../src-core/contract/host-api.ts';

/** The station beats every ten seconds: with two beats missing and a bit, nobody is there, whatever the system says. */
const SILENCE_MS = 25_000;
const FIRST_WAIT_MS = 500;
const LONGEST_WAIT_MS = 15_000;
/** A page that nobody sees lets go of its stream after this: browsers have few connections for one station. */
const HIDDEN_MS = 30_000;

/** How long to wait before the next try, after so many in vain, millisecond; `random` in [0, 1) spreads many tablets. */
export function waitBefore(triesInVain: number, random: number): number {
  const longest = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** triesInVain);
  return longest * (0.5 + random / 2);
}

/** The station's stream of what was written, taken up again by itself as often as it is lost. */
export class StationChanges {
  readonly #listeners = new Set<(notice: HostNotice) => void>();
  #source: EventSource | null = null;
  #isThere = false;
  #triesInVain = 0;
  #nextTry: ReturnType<typeof setTimeout> | undefined;
  #silence: ReturnType<typeof setTimeout> | undefined;
  #hidden: ReturnType<typeof setTimeout> | undefined;

  follow(listener: (notice: HostNotice) => void): () => void {
    this.#listeners.add(listener);
    if (this.#listeners.size === 1) this.#begin();
    else if (this.#isThere) listener({ kind: 'connected' });
    return () => {
      this.#listeners.delete(listener);
      if (this.#listeners.size === 0) this.#end();
    };
  }

  /** A call got no answer: the stream may be as dead, without having said so yet. */
  suspect(): void {
    if (this.#isThere) this.#lose();
  }

  #begin(): void {
    document.addEventListener('visibilitychange', this.#onVisibility);
    window.addEventListener('online', this.#tryNow);
    this.#connect();
  }

  #end(): void {
    document.removeEventListener('visibilitychange', this.#onVisibility);
    window.removeEventListener('online', this.#tryNow);
    clearTimeout(this.#hidden);
    this.#letGo();
  }

  #letGo(): void {
    clearTimeout(this.#nextTry);
    clearTimeout(this.#silence);
    this.#source?.close();
    this.#source = null;
    this.#isThere = false;
  }

  #connect(): void {
    this.#letGo();
    const source = new EventSource('/changes');
    this.#source = source;
    source.addEventListener('hello', () => {
      this.#isThere = true;
      this.#triesInVain = 0;
      this.#hear();
      this.#tell({ kind: 'connected' });
    });
    source.addEventListener('beat', () => this.#hear());
    source.addEventListener('change', ({ data }: MessageEvent<string>) => {
      this.#hear();
      this.#tell({ kind: 'change', change: JSON.parse(data) as Change });
    });
    // The browser's own way of trying again knows no back-off, and gives up at the first refusal.
    source.addEventListener('error', () => {
      const isRefused = source.readyState === EventSource.CLOSED;
      this.#lose();
      if (isRefused) void this.#askWhetherShutOut();
    });
    this.#hear();
  }

  #hear(): void {
    clearTimeout(this.#silence);
    this.#silence = setTimeout(() => this.#lose(), SILENCE_MS);
  }

  #lose(): void {
    this.#letGo();
    this.#tell({ kind: 'lost' });
    this.#nextTry = setTimeout(() => this.#connect(), waitBefore(this.#triesInVain, Math.random()));
    this.#triesInVain++;
  }

  /** A stream does not say why it was refused; a plain request does. */
  async #askWhetherShutOut(): Promise<void> {
    try {
      const { status } = await fetch('/api/access:me', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: '{}',
      });
      if (status === 401 || status === 403) this.#tell({ kind: 'shut-out' });
    } catch {
      // Nobody is there: lost, as was said.
    }
  }

  readonly #tryNow = (): void => {
    if (this.#isThere) return;
    this.#triesInVain = 0;
    this.#connect();
  };

  readonly #onVisibility = (): void => {
    clearTimeout(this.#hidden);
    if (document.visibilityState === 'hidden') this.#hidden = setTimeout(() => this.#letGo(), HIDDEN_MS);
    else if (!this.#isThere) this.#tryNow();
  };

  #tell(notice: HostNotice): void {
    for (const listener of [...this.#listeners]) listener(notice);
  }
}
