import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';
import type {
  RunActionInput,
  TrainingRunInput,
  TrainingView,
} from '../../../src-core/contract/training-view.ts';
import { told } from '../../display/told.ts';
import { keepIn, readKept } from '../../host/session-store.ts';
import { m } from '../../messages/en/practice.ts';

const STORE_KEY = 'beadwright.practice';
/** Case numbers that are drawn: short enough to be called across a room. */
const DRAWN_NUMBERS = 9999;
export const LARGEST_NUMBER = 0xffffffff;

/** What a case is about; with the actions it is the whole of it. */
export type PracticeBase = Omit<TrainingRunInput, 'actions'>;

/** One practice case as a trainee works on it; it survives a reload. */
export class PracticeRound {
  /** Null until a case is begun. */
  base = $state.raw<PracticeBase | null>(null);
  actions = $state.raw<readonly RunActionInput[]>([]);
  view = $state.raw<TrainingView | null>(null);
  isBusy = $state(false);
  /** The case is over and the planner goes through it: seconds. */
  isScoring = $state(false);
  failure = $state.raw<ReplyError | null>(null);
  /** Why the last action was not taken, where it did not fit the case; empty where it was. */
  refusal = $state('');

  readonly #host: HostApi;
  readonly #store: Storage;
  readonly #random: () => number;
  readonly #key: string;

  /** `key`: where it is kept, so that a group's case is not taken up as somebody's own. */
  constructor(host: HostApi, store: Storage, random: () => number, key = STORE_KEY) {
    this.#host = host;
    this.#store = store;
    this.#random = random;
    this.#key = key;
  }

  /** The whole run, as it is kept with a result. */
  get run(): TrainingRunInput | null {
    return this.base && { ...this.base, actions: [...this.actions] };
  }

  /** Takes up what a reload interrupted, if anything. */
  async takeUp(): Promise<void> {
    const kept = readKept(this.#store, this.#key, isKeptRound);
    if (kept) await this.#play(kept.base, kept.actions);
  }

  begin(base: PracticeBase): Promise<boolean> {
    return this.#play(base, []);
  }

  drawNumber(): number {
    return 1 + Math.floor(this.#random() * DRAWN_NUMBERS);
  }

  /** Another one of the kind; of a written case or one of the shop's own there is no other. */
  nextCase(): Promise<boolean> {
    const base = this.base ?? { seed: 0 };
    return this.#play({ ...base, seed: this.drawNumber(), scenario: null, caseId: null, focus: null }, []);
  }

  sameAgain(): Promise<boolean> {
    return this.base === null ? Promise.resolve(false) : this.#play(this.base, []);
  }

  act(action: RunActionInput): Promise<boolean> {
    if (this.base === null || this.view?.isOver) return Promise.resolve(false);
    return this.#play(this.base, [...this.actions, action]);
  }

  retry(): Promise<boolean> {
    return this.base === null ? Promise.resolve(false) : this.#play(this.base, this.actions);
  }

  /** Back to the choice of a case. */
  leave(): void {
    this.base = null;
    this.view = null;
    this.actions = [];
    this.failure = null;
    this.#store.removeItem(this.#key);
  }

  /** The host plays all actions anew; they are taken over only when it has answered. One call at a time. */
  async #play(base: PracticeBase, actions: readonly RunActionInput[]): Promise<boolean> {
    if (this.isBusy) return false;
    this.isBusy = true;
    this.isScoring = actions.some(({ kind }) => kind === 'name-cause');
    this.failure = null;
    this.refusal = '';
    try {
      const reply = await this.#host.call('training:view', { ...base, actions: [...actions] });
      if (!reply.ok) {
        this.failure = reply.error;
        return false;
      }
      if (reply.value.refusal !== null && actions.length > 0) {
        this.refusal = told(reply.value.refusal);
        return false;
      }
      this.base = base;
      this.actions = actions;
      this.view = reply.value;
      keepIn(this.#store, this.#key, { base, actions });
      return true;
    } finally {
      this.isBusy = false;
      this.isScoring = false;
    }
  }
}

/** What is wrong with a typed case number, or null. */
export function faultOfNumber(text: string): string | null {
  const number = Number(text);
  return /^\d+$/.test(text.trim()) && number <= LARGEST_NUMBER
    ? null
    : m.aCaseNumberIsAWhole({ largestNumber: LARGEST_NUMBER });
}

interface KeptRound {
  readonly base: PracticeBase;
  readonly actions: readonly RunActionInput[];
}

/** The host checks the rest; what it refuses shows as a failure. */
function isKeptRound(value: unknown): value is KeptRound {
  if (typeof value !== 'object' || value === null) return false;
  const { base, actions } = value as Partial<Record<keyof KeptRound, unknown>>;
  return (
    typeof base === 'object' &&
    base !== null &&
    'seed' in base &&
    typeof base.seed === 'number' &&
    Array.isArray(actions)
  );
}
