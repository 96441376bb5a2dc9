import { told } from '../../display/told.ts';
import { listed } from '../../messages/lists.ts';
import { ulid } from 'ulid';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';
import type { TrainingView } from '../../../src-core/contract/training-view.ts';
import type { Ballot, BallotKind, BallotResult } from '../../../src-core/contract/vote-view.ts';
import { keepIn, readKept } from '../../host/session-store.ts';
import { complaintWords } from '../../wording/label-words.ts';
import { PracticeRound, type PracticeBase } from '../practice/practice-round.svelte.ts';
import { m } from '../../messages/en/session.ts';

/** Somebody or something by name. */
export interface Choice {
  readonly id: string;
  readonly label: string;
}

/** A choice on the wall with who is for it. */
export interface Tally extends Choice {
  /** Hands that the trainer counted. */
  readonly hands: number;
  /** Votes of devices; null until they are revealed. */
  readonly devices: number | null;
  /** People whose word the trainer entered by name. */
  readonly named: number;
  readonly total: number;
}

/** Choices on the wall at once: what can be weighed at a glance. Of causes more, as the odds name some. */
const MOST_CHOICES: Readonly<Record<BallotKind, number>> = { check: 4, remedy: 4, cause: 8 };
const CASE_KEY = 'beadwright.group-case';
const WALL_KEY = 'beadwright.group-wall';

/** What stands on the wall; it survives a reload in the middle of a lesson. */
interface KeptWall {
  readonly people: readonly Choice[];
  readonly kind: BallotKind;
  readonly choices: readonly Choice[];
  readonly hands: Readonly<Record<string, number>>;
  readonly votes: Readonly<Record<string, string>>;
  readonly ballotId: string | null;
  readonly hasAsked: boolean;
  /** Votes that are in the casebook. */
  readonly inCasebook: number;
}

/**
 * A case that a group solves together. The trainer puts choices on the wall; hands are counted, and devices that have joined
 * vote where there is a network. What most want is done, and the odds move. In the end everybody says what is behind it; the
 * votes of people who are known are kept by person. Without a network nothing of it is missing but the devices.
 */
export class GroupSession {
  readonly round: PracticeRound;
  people = $state.raw<readonly Choice[]>([]);
  kind = $state<BallotKind>('check');
  choices = $state.raw<readonly Choice[]>([]);
  hands = $state<Record<string, number>>({});
  /** Person to cause, at the end, as the trainer entered it. */
  votes = $state<Record<string, string>>({});
  /** The vote that devices see; null while they are not asked. */
  ballot = $state.raw<Ballot | null>(null);
  /** Another session has put its vote in the place of this one's. */
  isTakenOver = $state(false);
  /** Odds before the newest step, by cause. */
  before = $state.raw<Readonly<Record<string, number>>>({});
  isRevealed = $state(false);
  kept = $state(0);
  failure = $state.raw<ReplyError | null>(null);

  readonly #host: HostApi;
  readonly #store: Storage | null;
  /** The vote on the wall; null where devices were not asked. */
  #ballotId: string | null = null;
  /** Devices show something of this session. */
  #hasAsked = false;
  #resultIds: Record<string, string> = {};

  constructor(host: HostApi, store: Storage, random: () => number) {
    this.#host = host;
    this.#store = store;
    this.round = new PracticeRound(host, store, random, CASE_KEY);
  }

  async begin(base: PracticeBase, people: readonly Choice[]): Promise<void> {
    this.people = people;
    this.#clear();
    this.kind = 'check';
    this.votes = {};
    this.before = {};
    this.isRevealed = false;
    this.kept = 0;
    this.#resultIds = {};
    await this.round.begin({ ...base, withOdds: true });
    this.#keep();
  }

  /** Takes up what a reload interrupted, if anything. */
  async takeUp(): Promise<void> {
    await this.round.takeUp();
    const kept = readKept(this.#store, WALL_KEY, isKeptWall);
    if (this.view === null || kept === null) return;
    this.people = kept.people;
    this.kind = kept.kind;
    this.choices = kept.choices;
    this.hands = { ...kept.hands };
    this.votes = { ...kept.votes };
    this.#ballotId = kept.ballotId;
    this.#hasAsked = kept.hasAsked;
    this.kept = kept.inCasebook;
    this.isRevealed = this.view.isOver;
    await this.readVotes();
  }

  get view(): TrainingView | null {
    return this.round.view;
  }

  /** Turns to another kind of question: what was on the wall was about the one before. */
  turnTo(kind: BallotKind): void {
    if (kind === this.kind) return;
    this.kind = kind;
    this.#clear();
    // For the last vote the wall starts with what the odds name.
    if (kind === 'cause')
      this.choices = (this.view?.odds ?? []).map(({ cause, label }) => ({ id: cause, label }));
    this.#keep();
  }

  get canPutUp(): boolean {
    return this.choices.length < MOST_CHOICES[this.kind] && this.ballot?.result === undefined;
  }

  put(choice: Choice): void {
    if (this.choices.length < MOST_CHOICES[this.kind] && !this.choices.some(({ id }) => id === choice.id))
      this.choices = [...this.choices, choice];
    this.#keep();
  }

  take(id: string): void {
    this.choices = this.choices.filter((one) => one.id !== id);
    this.#keep();
  }

  count(id: string, by: number): void {
    this.hands[id] = Math.max(0, (this.hands[id] ?? 0) + by);
    this.#keep();
  }

  /** What somebody says who has no device; an empty text takes it back. */
  say(personId: string, cause: string): void {
    if (cause) this.votes[personId] = cause;
    else Reflect.deleteProperty(this.votes, personId);
    this.#keep();
  }

  /** Devices have voted, and nobody has seen how: the wall shows it first, then it is done. */
  get isToBeRevealed(): boolean {
    return this.ballot !== null && this.ballot.result === null && this.ballot.cast > 0;
  }

  /** Everybody whose word is known by name: devices on which somebody is signed in, and whom the trainer asked. */
  get said(): readonly { readonly personId: string; readonly label: string; readonly cause: string }[] {
    const byDevice = (this.ballot?.voters ?? []).flatMap(({ personId, initials, choice }) =>
      personId === null ? [] : [{ personId, label: initials ?? '', cause: choice }],
    );
    return [...this.#entered, ...byDevice];
  }

  /** Who voted on a device of their own; what, stays covered until it is revealed. */
  hasVotedByDevice(personId: string): boolean {
    return this.ballot?.voters?.some((one) => one.personId === personId) === true;
  }

  /** What the trainer entered by name: of whom a device has not told already. */
  get #entered() {
    if (this.kind !== 'cause') return [];
    return this.people.flatMap(({ id, label }) => {
      const cause = this.votes[id];
      return cause && !this.hasVotedByDevice(id) ? [{ personId: id, label, cause }] : [];
    });
  }

  /** What is on the wall with who is for it, in the order in which it was put up. */
  get tally(): readonly Tally[] {
    const isOut = this.ballot === null || this.ballot.result !== null;
    return this.choices.map(({ id, label }) => {
      const hands = this.hands[id] ?? 0;
      const devices = isOut ? (this.ballot?.voters ?? []).filter(({ choice }) => choice === id).length : null;
      const named = this.#entered.filter(({ cause }) => cause === id).length;
      return { id, label, hands, devices, named, total: hands + (devices ?? 0) + named };
    });
  }

  /** The choice that most are for; the first of equal ones, null while there is none. */
  get winner(): Choice | null {
    const [first] = this.tally.toSorted((a, b) => b.total - a.total);
    return first && first.total > 0 ? first : null;
  }

  /** Asks the devices that have joined. */
  async ask(): Promise<boolean> {
    const { view } = this;
    if (view === null) return false;
    const ballotId = ulid();
    const reply = await this.#host.call('vote:ask', {
      ballotId,
      kind: this.kind,
      title: view.title ? told(view.title) : m.caseWithSeed({ seed: view.seed }),
      complaints: view.story.complaints.map((one) => complaintWords(one, told)),
      choices: this.choices.map(({ id, label }) => ({ id, label: label.slice(0, 200) })),
    });
    if (!reply.ok) return this.#fail(reply.error);
    this.#ballotId = ballotId;
    this.#hasAsked = true;
    this.#seen(reply.value.ballot);
    this.#keep();
    return true;
  }

  /** Reads what has come in: with every change that is told. */
  async readVotes(): Promise<void> {
    if (this.#ballotId === null) return;
    const reply = await this.#host.call('vote:look', {});
    if (reply.ok) this.#seen(reply.value.ballot);
    else this.#fail(reply.error);
  }

  /** Lets the wall and every device see how the room voted. */
  revealVotes(): Promise<boolean> {
    return this.#tellDevices(null, []);
  }

  /** Does what most want. The trainer reads the cautions aloud. */
  async doIt(): Promise<void> {
    const { winner, kind } = this;
    if (!winner || kind === 'cause') return;
    this.before = Object.fromEntries(
      this.view?.odds?.map(({ cause, probability }) => [cause, probability]) ?? [],
    );
    const isDone = await this.round.act(
      kind === 'check'
        ? { kind: 'check', observation: winner.id, readCautions: true }
        : { kind: 'remedy', remedy: winner.id, readCautions: true },
    );
    if (!isDone) return;
    const newest = this.view?.done.at(-1);
    if (this.ballot) await this.#tellDevices(newest ? `${newest.label}: ${told(newest.result)}` : null, []);
    this.#clear();
    this.#keep();
  }

  get isVoted(): boolean {
    return this.winner !== null || this.said.length > 0;
  }

  /** Shows what it was, here and on every device, and keeps each known vote by person. Pressed again, nothing is added. */
  async reveal(): Promise<boolean> {
    const { run } = this.round;
    const cause = this.winner?.id ?? this.said[0]?.cause;
    if (!run || cause === undefined) return false;
    if (this.ballot && this.ballot.result === null && !(await this.revealVotes())) return false;
    const actions = run.actions.filter(({ kind }) => kind !== 'name-cause');
    if (!this.view?.isOver && !(await this.round.act({ kind: 'name-cause', cause }))) return false;
    this.isRevealed = true;
    const truth = this.view?.score?.trueCauses ?? [];
    if (this.ballot)
      await this.#tellDevices(
        m.behindItWithTruth({ truth: listed(truth.map(({ label }) => label)) }),
        truth.map((one) => one.cause),
      );
    for (const { personId, cause: vote } of this.said) {
      const resultId = (this.#resultIds[personId] ??= ulid());
      const reply = await this.#host.call('training:keep', {
        personId,
        resultId,
        done: { kind: 'vote', run: { ...run, actions: [...actions, { kind: 'name-cause', cause: vote }] } },
      });
      if (reply.ok || reply.error.code === 'stale') this.kept++;
      else this.#fail(reply.error);
    }
    this.#keep();
    return true;
  }

  /** Ends the case, and takes the vote off the devices. */
  async end(): Promise<void> {
    if (this.#hasAsked) {
      const reply = await this.#host.call('vote:end', {});
      if (!reply.ok) this.#fail(reply.error);
    }
    this.#hasAsked = false;
    this.#clear();
    this.#store?.removeItem(WALL_KEY);
    this.round.leave();
  }

  async #tellDevices(outcome: string | null, right: readonly string[]): Promise<boolean> {
    if (this.ballot === null) return false;
    const onTheWall = this.ballot.choices.map(({ id }) => id);
    const hands = Object.fromEntries(
      onTheWall.map((id) => [
        id,
        (this.hands[id] ?? 0) + this.#entered.filter(({ cause }) => cause === id).length,
      ]),
    );
    const result: BallotResult = { hands, outcome, right: right.filter((id) => onTheWall.includes(id)) };
    const reply = await this.#host.call('vote:reveal', { ballotId: this.ballot.ballotId, result });
    if (!reply.ok) {
      await this.readVotes();
      return this.#fail(reply.error);
    }
    this.#seen(reply.value.ballot);
    return true;
  }

  #seen(ballot: Ballot | null): void {
    const isOurs = ballot !== null && ballot.ballotId === this.#ballotId;
    this.isTakenOver = !isOurs && this.#ballotId !== null;
    this.ballot = isOurs ? ballot : null;
  }

  #fail(error: ReplyError): false {
    this.failure = error;
    return false;
  }

  /** What was put to the vote is over; the devices go on showing how it came out. */
  #clear(): void {
    this.choices = [];
    this.hands = {};
    this.ballot = null;
    this.#ballotId = null;
    this.isTakenOver = false;
  }

  #keep(): void {
    const { people, kind, choices, hands, votes } = this;
    const kept: KeptWall = {
      people,
      kind,
      choices,
      hands,
      votes,
      ballotId: this.#ballotId,
      hasAsked: this.#hasAsked,
      inCasebook: this.kept,
    };
    keepIn(this.#store, WALL_KEY, kept);
  }
}

function isKeptWall(value: unknown): value is KeptWall {
  if (typeof value !== 'object' || value === null) return false;
  const { people, kind, choices, hands, votes, ballotId, hasAsked, inCasebook } = value as Partial<
    Record<keyof KeptWall, unknown>
  >;
  return (
    Array.isArray(people) &&
    Array.isArray(choices) &&
    (kind === 'check' || kind === 'remedy' || kind === 'cause') &&
    typeof hands === 'object' &&
    hands !== null &&
    typeof votes === 'object' &&
    votes !== null &&
    (ballotId === null || typeof ballotId === 'string') &&
    typeof hasAsked === 'boolean' &&
    typeof inCasebook === 'number'
  );
}
