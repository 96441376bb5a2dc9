import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type {
  MaintenanceEventInput,
  MaintenanceList,
  MaintenancePlan,
  PrinterMaintenance,
} from '../../../src-core/contract/maintenance-view.ts';
import type { Reply, ReplyError } from '../../../src-core/contract/reply.ts';

export interface Due {
  readonly printer: PrinterMaintenance;
  readonly task: PrinterMaintenance['tasks'][number];
}

/** Due now or within a week, most urgent first; nothing of a printer under a danger sign. */
export function dueSoon(list: Pick<MaintenanceList, 'printers'>): readonly Due[] {
  return list.printers
    .filter(({ isInDanger }) => !isInDanger)
    .flatMap((printer) => printer.tasks.map((task) => ({ printer, task })))
    .filter(({ task }) => task.due === 'overdue' || task.due === 'this-week')
    .sort(
      (a, b) =>
        Number(b.task.due === 'overdue') - Number(a.task.due === 'overdue') || b.task.share - a.task.share,
    );
}

/** What printers need, and what is logged of it. */
export class MaintenanceBook {
  list = $state.raw<MaintenanceList | null>(null);
  readFailure = $state.raw<ReplyError | null>(null);
  failure = $state('');
  isBusy = $state(false);
  /** What was ticked off last: it can be taken back, and more can be said of it. */
  justDone = $state.raw<{
    readonly printerId: string;
    readonly printer: string;
    readonly task: string;
    readonly label: string;
    readonly seq: number;
  } | null>(null);
  /** Who can have done it, by initials. */
  people = $state.raw<readonly string[]>([]);

  readonly #host: HostApi;

  constructor(host: HostApi) {
    this.#host = host;
  }

  async read(): Promise<void> {
    const [reply, shop] = await Promise.all([
      this.#host.call('maintenance:list', {}),
      this.#host.call('shop:read', {}),
    ]);
    if (shop.ok)
      this.people = shop.value.people.filter((one) => !one.isRetired).map(({ initials }) => initials);
    if (reply.ok) this.list = reply.value;
    this.readFailure = reply.ok ? null : reply.error;
  }

  of(printerId: string): PrinterMaintenance | undefined {
    return this.list?.printers.find((one) => one.printerId === printerId);
  }

  /** Ticks a task off, as done just now. */
  async done({ printer, task }: Due): Promise<void> {
    const { printerId } = printer;
    if (await this.#log(printerId, { kind: 'done', task: task.task }))
      this.justDone = {
        printerId,
        printer: printer.label,
        task: task.task,
        label: task.label,
        seq: this.of(printerId)?.revision ?? 0,
      };
  }

  /** Says more of what was ticked off last. */
  async detail(details: Omit<Extract<MaintenanceEventInput, { kind: 'detailed' }>, 'kind' | 'of'>) {
    const { justDone } = this;
    if (!justDone) return;
    if (await this.#log(justDone.printerId, { kind: 'detailed', of: justDone.seq, ...details }))
      this.justDone = null;
  }

  async undo(printerId: string, seq: number): Promise<boolean> {
    const isTaken = await this.#log(printerId, { kind: 'undone', of: seq });
    if (isTaken && this.justDone?.printerId === printerId && this.justDone.seq === seq) this.justDone = null;
    return isTaken;
  }

  readCounters(
    printerId: string,
    reading: Extract<MaintenanceEventInput, { kind: 'counters-read' }>['reading'],
  ): Promise<boolean> {
    return this.#log(printerId, { kind: 'counters-read', reading });
  }

  savePlan(plan: MaintenancePlan): Promise<boolean> {
    const revision = this.list?.planRevision ?? 0;
    return this.#write(() => this.#host.call('maintenance:save-plan', { plan, revision }));
  }

  #log(printerId: string, event: MaintenanceEventInput): Promise<boolean> {
    const revision = this.of(printerId)?.revision ?? 0;
    return this.#write(() => this.#host.call('maintenance:log', { printerId, event, revision }));
  }

  /** One write at a time; a second press while the first is written counts once. */
  async #write(call: () => Promise<Reply<MaintenanceList>>): Promise<boolean> {
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
