import { createSubscriber } from 'svelte/reactivity';

/** Screens say minutes, never seconds. */
const TICK_MS = 10_000;

/** The time of day for whatever on a screen changes by itself: runs only while something shows it. */
class Clock {
  readonly #follow = createSubscriber((update) => {
    const timer = setInterval(update, TICK_MS);
    return () => clearInterval(timer);
  });

  /** Milliseconds since 1970. */
  get nowMs(): number {
    this.#follow();
    return Date.now();
  }
}

export const clock = new Clock();
