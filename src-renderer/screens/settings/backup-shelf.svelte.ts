import type { Words } from '../../../src-core/words/message.ts';
import type { Backup, Dumps } from '../../../src-core/contract/casebook-view.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import { m } from '../../messages/en/settings.ts';

/** The backups of the casebook, and whether the casebook itself can be read. */
export class BackupShelf {
  #host: HostApi;
  backups = $state.raw<readonly Backup[] | null>(null);
  folder = $state('');
  /** Where another program makes the copies; null where this one does. */
  dumps = $state.raw<Dumps | null>(null);
  /** The casebook is gone; an empty one may be begun. */
  isCasebookMissing = $state(false);
  /** Something about the backups that should be seen to; null where there is nothing. */
  warning = $state.raw<Words | null>(null);
  /** Why the casebook is unavailable; empty while it is there. */
  casebookProblem = $state('');
  failure = $state('');
  /** What was done last, in words. */
  done = $state('');
  isBusy = $state(false);

  constructor(host: HostApi) {
    this.#host = host;
  }

  /** The newest backup that can be read itself. */
  get newestGood(): Backup | null {
    return this.backups?.find((backup) => backup.cases !== null) ?? null;
  }

  async read(): Promise<void> {
    const [list, cases] = await Promise.all([
      this.#host.call('backup:list', {}),
      this.#host.call('case:list', { limit: 1 }),
    ]);
    this.casebookProblem =
      !cases.ok && cases.error.code === 'casebook-unavailable' ? cases.error.message : '';
    if (list.ok) {
      this.backups = list.value.backups;
      this.folder = list.value.folder;
      this.dumps = list.value.dumps;
      this.isCasebookMissing = list.value.isCasebookMissing;
      this.warning = list.value.warning;
      this.failure = '';
    } else this.failure = list.error.message;
  }

  make(): Promise<void> {
    return this.#work(async () => {
      const reply = await this.#host.call('backup:make', {});
      if (!reply.ok) return reply.error.message;
      this.done = m.backedUpAs({ valueName: reply.value.name });
      return '';
    });
  }

  beginEmpty(): Promise<void> {
    return this.#work(async () => {
      const reply = await this.#host.call('casebook:begin-empty', {});
      if (!reply.ok) return reply.error.message;
      this.done = m.anEmptyCasebookHasBeenBegun({ setAside: reply.value.setAside });
      return '';
    });
  }

  restore(name: string): Promise<void> {
    return this.#work(async () => {
      const reply = await this.#host.call('backup:restore', { name });
      if (!reply.ok) return reply.error.message;
      this.done = m.isTheCasebookNowWhatWas({ restored: reply.value.restored, keptAs: reply.value.keptAs });
      return '';
    });
  }

  /** One at a time; a second press while one is under way does nothing. */
  async #work(run: () => Promise<string>): Promise<void> {
    if (this.isBusy) return;
    this.isBusy = true;
    this.failure = '';
    this.done = '';
    const failure = await run();
    await this.read();
    this.failure = failure || this.failure;
    this.isBusy = false;
  }
}
