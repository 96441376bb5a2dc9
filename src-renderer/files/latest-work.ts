/** One piece of work at a time: beginning another stops the one before, and what that still brings is not taken. */
export class LatestWork {
  private current: AbortController | null = null;

  /** Runs `work`; `take` gets its result unless other work has begun, or this was stopped, in the meantime. */
  async run<T>(work: (signal: AbortSignal) => Promise<T>, take: (result: T) => void): Promise<void> {
    this.stop();
    const own = new AbortController();
    this.current = own;
    const result = await work(own.signal);
    if (own.signal.aborted) return;
    this.current = null;
    take(result);
  }

  stop(): void {
    this.current?.abort();
    this.current = null;
  }
}
