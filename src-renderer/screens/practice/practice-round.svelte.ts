import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';
import type { TrainingActionInput, TrainingView } from '../../../src-core/contract/training-view.ts';
import { keepIn } from '../../host/session-store.ts';

const STORE_KEY = 'beadwright.practice';
/** Actions that one practice case takes. */
export const MOST_ACTIONS = 80;
/** Case numbers that are drawn: short enough to be called across a room. */
const DRAWN_NUMBERS = 9999;
export const LARGEST_NUMBER = 0xffffffff;

interface KeptRound {
  readonly seed: number;
  readonly family: string | null;
  readonly actions: readonly TrainingActionInput[];
}

/** One practice case as a trainee works on it: seed, family and actions are the whole of it, and survive a reload. */
export class PracticeRound {
  /** Null until a case is begun. */
  seed = $state<number | null>(null);
  family = $state<string | null>(null);
  actions = $state.raw<readonly TrainingActionInput[]>([]);
  view = $state.raw<TrainingView | null>(null);
  isBusy = $state(false);
  failure = $state.raw<ReplyError | null>(null);

  readonly #host: HostApi;
  readonly #store: Storage;
  readonly #random: () => number;

  constructor(host: HostApi, store: Storage, random: () => number) {
    this.#host = host;
    this.#store = store;
    this.#random = random;
  }

  /** Takes up what a reload interrupted, if anything. */
  async takeUp(): Promise<void> {
    const kept = readKept(this.#store);
    if (!kept) return;
    await this.#play(kept.seed, kept.family, kept.actions);
  }

  begin(seed: number, family: string | null): Promise<boolean> {
    return this.#play(seed, family, []);
  }

  drawNumber(): number {
    return 1 + Math.floor(this.#random() * DRAWN_NUMBERS);
  }

  nextCase(): Promise<boolean> {
    return this.#play(this.drawNumber(), this.family, []);
  }

  sameAgain(): Promise<boolean> {
    return this.seed === null ? Promise.resolve(false) : this.#play(this.seed, this.family, []);
  }

  act(action: TrainingActionInput): Promise<boolean> {
    if (this.seed === null || this.view?.isOver) return Promise.resolve(false);
    return this.#play(this.seed, this.family, [...this.actions, action]);
  }

  retry(): Promise<boolean> {
    return this.seed === null ? Promise.resolve(false) : this.#play(this.seed, this.family, this.actions);
  }

  /** Back to the choice of a case. */
  leave(): void {
    this.seed = null;
    this.view = null;
    this.actions = [];
    this.failure = null;
    this.#store.removeItem(STORE_KEY);
  }

  /** The host plays all actions anew; they are taken over only when it has answered. One call at a time. */
  async #play(seed: number, family: string | null, actions: readonly TrainingActionInput[]): Promise<boolean> {
    if (this.isBusy) return false;
    this.isBusy = true;
    this.failure = null;
    try {
      const reply = await this.#host.call('training:view', { seed, family, actions: [...actions] });
      if (!reply.ok) {
        this.failure = reply.error;
        return false;
      }
      this.seed = seed;
      this.family = family;
      this.actions = actions;
      this.view = reply.value;
      const kept: KeptRound = { seed, family, actions };
      keep(this.#store, kept);
      return true;
    } finally {
      this.isBusy = false;
    }
  }
}

/** What is wrong with a typed case number, or null. */
export function faultOfNumber(text: string): string | null {
  const number = Number(text);
  return /^\d+$/.test(text.trim()) && number <= LARGEST_NUMBER
    ? null
    : `A case number is a whole number from 0 to ${LARGEST_NUMBER}.`;
}

function keep(store: Storage, kept: KeptRound): void {
  keepIn(store, STORE_KEY, kept);
}

function readKept(store: Storage): KeptRound | null {
  try {
    const kept: unknown = JSON.parse(store.getItem(STORE_KEY) ?? 'null');
    if (!kept || typeof kept !== 'object' || !('seed' in kept) || typeof kept.seed !== 'number') return null;
    const family = 'family' in kept && typeof kept.family === 'string' ? kept.family : null;
    // The host checks the actions; one that it refuses shows as a failure.
    const actions =
      'actions' in kept && Array.isArray(kept.actions) ? (kept.actions as TrainingActionInput[]) : [];
    return { seed: kept.seed, family, actions };
  } catch {
    return null;
  }
}
