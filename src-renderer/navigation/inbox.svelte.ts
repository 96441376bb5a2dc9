import type { OpenCase } from '../../src-core/contract/bench-view.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';
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
  cases = $state.raw<readonly OpenCase[] | null>(null);
  /** Cases with a danger sign that nobody has taken over yet. */
  underDanger = $state.raw<readonly OpenCase[]>([]);
  /** What the printers of the shop are called, by id. */
  printers = $state.raw<ReadonlyMap<string, string>>(new Map());
  /** Cases with a wait that was begun, over or not: it reminds on every screen. */
  timers = $state.raw<readonly OpenCase[]>([]);
  failure = $state.raw<ReplyError | null>(null);
  /** Actions that are due today or overdue. */
  dueActions = $state(0);

  /** How many there are to look at: handed over, whatever they wait for. */
  get count(): number {
    return (this.cases ?? []).filter((one) => one.state === 'handed-over').length;
  }

  async read(host: HostApi): Promise<void> {
    const [reply, actions] = await Promise.all([
      host.call('bench:read', {}),
      host.call('action:count-due', {}),
    ]);
    this.dueActions = actions.ok ? actions.value.due : 0;
    if (reply.ok) {
      this.printers = new Map(reply.value.printers.map(({ id, label }) => [id, label]));
      this.timers = reply.value.openCases.filter(({ timer }) => timer !== null);
      this.underDanger = reply.value.openCases.filter(({ state }) => state === 'make-safe');
      this.cases = reply.value.openCases.filter(({ state }) => state === 'handed-over' || state === 'parked');
    }
    this.failure = reply.ok ? null : reply.error;
  }
}

export const inbox = new Inbox();
