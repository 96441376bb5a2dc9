import { ulid } from 'ulid';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { TrainingView } from '../../../src-core/contract/training-view.ts';
import { PracticeRound, type PracticeBase } from '../practice/practice-round.svelte.ts';

/** Hands for one choice. */
export interface Choice {
  readonly id: string;
  readonly label: string;
}

/** Choices on the wall at once: what hands can be counted for. */
const MOST_CHOICES = 4;

/**
 * A case that a group solves together, from one laptop: the trainer puts choices on the wall and enters the hands; what most
 * want is done, and the odds move. In the end each named person votes for a cause; the votes are kept by person.
 */
export class GroupSession {
  readonly round: PracticeRound;
  people = $state.raw<readonly Choice[]>([]);
  choices = $state.raw<readonly Choice[]>([]);
  hands = $state<Record<string, number>>({});
  /** Person to cause, at the end. */
  votes = $state<Record<string, string>>({});
  /** Odds before the newest step, by cause. */
  before = $state.raw<Readonly<Record<string, number>>>({});
  isRevealed = $state(false);
  kept = $state(0);

  readonly #host: HostApi;
  #resultIds: Record<string, string> = {};

  constructor(host: HostApi, store: Storage, random: () => number) {
    this.#host = host;
    this.round = new PracticeRound(host, store, random);
  }

  async begin(base: PracticeBase, people: readonly Choice[]): Promise<void> {
    this.people = people;
    this.#clear();
    this.votes = {};
    this.before = {};
    this.isRevealed = false;
    this.kept = 0;
    this.#resultIds = {};
    await this.round.begin({ ...base, withOdds: true });
  }

  get view(): TrainingView | null {
    return this.round.view;
  }

  put(choice: Choice): void {
    if (this.choices.length < MOST_CHOICES && !this.choices.some(({ id }) => id === choice.id))
      this.choices = [...this.choices, choice];
  }

  take(id: string): void {
    this.choices = this.choices.filter((one) => one.id !== id);
  }

  count(id: string, by: number): void {
    this.hands[id] = Math.max(0, (this.hands[id] ?? 0) + by);
  }

  /** The choice that most hands are for; the first of equal ones, null while there is none. */
  get winner(): Choice | null {
    const counted = this.choices.toSorted((a, b) => (this.hands[b.id] ?? 0) - (this.hands[a.id] ?? 0));
    const [first] = counted;
    return first && (this.hands[first.id] ?? 0) > 0 ? first : null;
  }

  /** Does what most want. The trainer reads the cautions aloud. */
  async doIt(kind: 'check' | 'remedy'): Promise<void> {
    const { winner } = this;
    if (!winner) return;
    this.before = Object.fromEntries(
      this.view?.odds?.map(({ cause, probability }) => [cause, probability]) ?? [],
    );
    await this.round.act(
      kind === 'check'
        ? { kind: 'check', observation: winner.id, readCautions: true }
        : { kind: 'remedy', remedy: winner.id, readCautions: true },
    );
    this.#clear();
  }

  get isVoted(): boolean {
    return this.people.length > 0 && this.people.every(({ id }) => this.votes[id]);
  }

  /** Keeps each vote by person, then shows what it was. Pressed again, nothing is added. */
  async reveal(cause: string): Promise<boolean> {
    const run = this.round.run;
    if (!run) return false;
    const actions = run.actions.filter(({ kind }) => kind !== 'name-cause');
    if (!this.view?.isOver && !(await this.round.act({ kind: 'name-cause', cause }))) return false;
    this.isRevealed = true;
    for (const { id: personId } of this.people) {
      const vote = this.votes[personId];
      if (!vote) continue;
      const resultId = (this.#resultIds[personId] ??= ulid());
      const reply = await this.#host.call('training:keep', {
        personId,
        resultId,
        done: { kind: 'vote', run: { ...run, actions: [...actions, { kind: 'name-cause', cause: vote }] } },
      });
      if (reply.ok || reply.error.code === 'stale') this.kept++;
      else this.round.failure = reply.error;
    }
    return true;
  }

  #clear(): void {
    this.choices = [];
    this.hands = {};
  }
}
