import type {
  Action,
  ActionList,
  ActionPlanInput,
  LaterActionEvent,
} from '../../../src-core/contract/action-view.ts';
import type { Grouping } from '../../../src-core/contract/recurrence-choices.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { RecurrenceRow } from '../../../src-core/contract/recurrence-view.ts';
import type { ReplyError, Reply } from '../../../src-core/contract/reply.ts';

/** What the shop does about what comes back. */
export class ActionBook {
  list = $state.raw<ActionList | null>(null);
  readFailure = $state.raw<ReplyError | null>(null);
  failure = $state('');
  isBusy = $state(false);
  /** Who can own an action, by initials. */
  people = $state.raw<readonly string[]>([]);

  readonly #host: HostApi;

  constructor(host: HostApi) {
    this.#host = host;
  }

  async read(): Promise<void> {
    const [reply, shop] = await Promise.all([
      this.#host.call('action:list', {}),
      this.#host.call('shop:read', {}),
    ]);
    if (shop.ok)
      this.people = shop.value.people.filter((one) => !one.isRetired).map(({ initials }) => initials);
    if (reply.ok) this.list = reply.value;
    this.readFailure = reply.ok ? null : reply.error;
  }

  /** The action about a finding: one that is not done before one that is, the latest of those. */
  about(row: RecurrenceRow, by: Grouping): Action | undefined {
    const all = (this.list?.actions ?? []).filter(
      ({ about }) => about?.by === by && about.where === row.where && about.what === row.what,
    );
    return all.find(({ state }) => state !== 'done') ?? all.at(-1);
  }

  /** Begins an action; true when it was written. A second press while the first is written counts once. */
  open(plan: ActionPlanInput, then: LaterActionEvent | null = null): Promise<boolean> {
    return this.#write(() => this.#host.call('action:open', { plan, then }));
  }

  log({ actionId, revision }: Action, event: LaterActionEvent): Promise<boolean> {
    return this.#write(() => this.#host.call('action:log', { actionId, revision, event }));
  }

  async #write(call: () => Promise<Reply<ActionList>>): Promise<boolean> {
    if (this.isBusy) return false;
    this.isBusy = true;
    this.failure = '';
    const reply = await call();
    this.isBusy = false;
    if (reply.ok) {
      this.list = reply.value;
      return true;
    }
    if (reply.error.code === 'stale') await this.read();
    this.failure = reply.error.message;
    return false;
  }
}
