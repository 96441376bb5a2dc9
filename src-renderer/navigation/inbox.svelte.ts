import type { OpenCase } from '../../src-core/contract/bench-view.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';
import { statusOf } from '../wording/status-words.ts';
import type { ReplyError } from '../../src-core/contract/reply.ts';

/** Due first, the earliest before the others; then what has waited longest. */
export function inboxOrder(cases: readonly OpenCase[]): readonly OpenCase[] {
  return cases.toSorted(
    (a, b) =>
      (a.dueOn ?? '9999').localeCompare(b.dueOn ?? '9999') ||
      (a.waitingSince ?? a.openedAt).localeCompare(b.waitingSince ?? b.openedAt),
  );
}

/** Cases that rest with somebody: what the lead's inbox shows, and its number on every screen. */
class Inbox {
  #openCases = $state.raw<readonly OpenCase[] | null>(null);
  readonly cases = $derived(
    this.#openCases?.filter(({ state }) => state === 'handed-over' || state === 'parked') ?? null,
  );
  /** Cases with a danger sign that nobody has taken over yet, but for those that were handed over. */
  readonly underDanger = $derived(
    (this.#openCases ?? []).filter((one) => statusOf(one) === 'danger' && one.state !== 'handed-over'),
  );
  /** What the printers of the shop are called, by id. */
  printers = $state.raw<ReadonlyMap<string, string>>(new Map());
  /** Cases with a wait that was begun, over or not: it reminds on every screen. */
  readonly timers = $derived((this.#openCases ?? []).filter(({ timer }) => timer !== null));
  failure = $state.raw<ReplyError | null>(null);
  /** Actions that are due today or overdue. */
  dueActions = $state(0);

  /** How many there are to look at: handed over, whatever they wait for, and stopped by a danger sign from the first moment. */
  get count(): number {
    const handedOver = (this.cases ?? []).filter((one) => one.state === 'handed-over');
    return handedOver.length + this.underDanger.length;
  }

  async read(host: HostApi): Promise<void> {
    const [reply, actions] = await Promise.all([
      host.call('bench:read', {}),
      host.call('action:count-due', {}),
    ]);
    this.dueActions = actions.ok ? actions.value.due : 0;
    if (reply.ok) {
      this.printers = new Map(reply.value.printers.map(({ id, label }) => [id, label]));
      this.#openCases = reply.value.openCases;
    }
    this.failure = reply.ok ? null : reply.error;
  }
}

export const inbox = new Inbox();
