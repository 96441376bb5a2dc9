import { ulid } from 'ulid';
import type { HostApi } from '../../src-core/contract/host-api.ts';
import type { InputOf } from '../../src-core/contract/calls.ts';
import type { ReplyError } from '../../src-core/contract/reply.ts';
import type { TraineeRecord, TrainingOptions } from '../../src-core/contract/training-results.ts';

const STORE_KEY = 'beadwright.trainee';

/** Who is learning at this screen, with the record that the casebook holds; nobody, where somebody only has a look. */
export class Trainee {
  options = $state.raw<TrainingOptions | null>(null);
  personId = $state<string | null>(null);
  record = $state.raw<TraineeRecord | null>(null);
  failure = $state.raw<ReplyError | null>(null);
  isBusy = $state(false);

  readonly #host: HostApi;
  readonly #store: Storage;

  constructor(host: HostApi, store: Storage) {
    this.#host = host;
    this.#store = store;
  }

  /** Reads who there is, and takes up whoever learned at this screen last (or `personId`). */
  async read(personId: string | null = null): Promise<void> {
    this.failure = null;
    const reply = await this.#host.call('training:options', {});
    if (!reply.ok) {
      this.failure = reply.error;
      return;
    }
    this.options = reply.value;
    const wanted = personId ?? this.#store.getItem(STORE_KEY);
    if (wanted !== null && reply.value.people.some(({ id }) => id === wanted)) await this.choose(wanted);
  }

  async choose(personId: string | null): Promise<void> {
    this.personId = personId;
    this.record = null;
    if (personId === null) {
      this.#store.removeItem(STORE_KEY);
      return;
    }
    this.#store.setItem(STORE_KEY, personId);
    const reply = await this.#host.call('training:record', { personId });
    if (reply.ok) this.record = reply.value;
    else this.failure = reply.error;
  }

  /** Keeps what was done under an id of its own, so that a second press adds nothing. */
  async keep(done: InputOf<'training:keep'>['done'], resultId = ulid()): Promise<boolean> {
    if (this.personId === null) return false;
    this.isBusy = true;
    this.failure = null;
    try {
      const reply = await this.#host.call('training:keep', { personId: this.personId, resultId, done });
      if (reply.ok) this.record = reply.value;
      else if (reply.error.code !== 'stale') this.failure = reply.error;
      else await this.choose(this.personId);
      return this.failure === null;
    } finally {
      this.isBusy = false;
    }
  }

  async forget(): Promise<void> {
    if (this.personId === null) return;
    const reply = await this.#host.call('training:forget', { personId: this.personId });
    if (reply.ok) this.record = reply.value;
    else this.failure = reply.error;
  }
}
