import type { OutputOf } from '../../../src-core/contract/calls.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';
import { saveText } from '../../files/save-text.ts';
import type { CaseList } from './case-list.svelte.ts';

/** Cases out of the casebook into a JSON Lines file, and back in. */
export class Transfer {
  isBusy = $state(false);
  failure = $state.raw<ReplyError | null>(null);
  exported = $state.raw<{ readonly count: number; readonly fileName: string } | null>(null);
  imported = $state.raw<(OutputOf<'case:import'> & { readonly fileName: string }) | null>(null);

  readonly #host: HostApi;
  readonly #list: CaseList;
  /** Today, for the file's name: "2026-11-25". */
  readonly #day: () => string;

  constructor(host: HostApi, list: CaseList, day: () => string) {
    this.#host = host;
    this.#day = day;
    this.#list = list;
  }

  async exportCases(which: 'all' | 'filtered'): Promise<void> {
    await this.#alone(async () => {
      const ids = which === 'all' ? null : await this.#list.idsOfFiltered();
      if (ids !== null && 'code' in ids) return ids;
      const reply = await this.#host.call('case:export', { caseIds: ids === null ? null : [...ids] });
      if (!reply.ok) return reply.error;
      const fileName = `beadwright-cases-${this.#day()}.jsonl`;
      saveText(reply.value.jsonLines, fileName, 'application/x-ndjson');
      this.exported = { count: reply.value.count, fileName };
      return null;
    });
  }

  async importFile(file: File): Promise<void> {
    await this.#alone(async () => {
      const reply = await this.#host.call('case:import', { jsonLines: await file.text() });
      if (!reply.ok) return reply.error;
      this.imported = { ...reply.value, fileName: file.name };
      await this.#list.read();
      return null;
    });
  }

  /** One transfer at a time; a second press does nothing. */
  async #alone(work: () => Promise<ReplyError | null>): Promise<void> {
    if (this.isBusy) return;
    this.isBusy = true;
    this.failure = null;
    this.exported = null;
    this.imported = null;
    try {
      this.failure = await work();
    } finally {
      this.isBusy = false;
    }
  }
}
