import type { OutputOf } from '../../../src-core/contract/calls.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { Reply, ReplyError } from '../../../src-core/contract/reply.ts';
import { linesOfFile } from '../../files/lines-of-file.ts';
import { saveText } from '../../files/save-text.ts';
import type { CaseList } from './case-list.svelte.ts';

/** Cases out of the casebook into a JSON Lines file, and back in. */
export class Transfer {
  isBusy = $state(false);
  failure = $state.raw<ReplyError | null>(null);
  exported = $state.raw<{
    readonly count: number;
    /** Entries that this version cannot read; they are in the file as they are. */
    readonly setAside: number;
    readonly fileName: string;
  } | null>(null);
  imported = $state.raw<(OutputOf<'case:import'> & { readonly fileName: string }) | null>(null);

  /** A file that was looked through: what would come in of it. */
  tried = $state.raw<(OutputOf<'case:import'> & { readonly file: File; readonly fileName: string }) | null>(
    null,
  );

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
      const parts: string[] = [];
      const lots = ids === null ? [null] : lotsOf(ids);
      let [count, setAside] = [0, 0];
      for (const caseIds of lots) {
        let after: string | null = null;
        do {
          const reply: Reply<OutputOf<'case:export'>> = await this.#host.call('case:export', {
            caseIds,
            after,
          });
          if (!reply.ok) return reply.error;
          parts.push(reply.value.jsonLines);
          count += reply.value.count;
          setAside += reply.value.setAside.length;
          after = reply.value.next;
        } while (after !== null);
      }
      const fileName = `beadwright-cases-${this.#day()}.jsonl`;
      saveText(parts, fileName, 'application/x-ndjson');
      this.exported = { count, setAside, fileName };
      return null;
    });
  }

  /** What would come in of a file, before anything does. */
  async tryFile(file: File): Promise<void> {
    await this.#alone(async () => {
      const { total, failure } = await this.#send(file, true);
      if (failure === null) this.tried = { ...total, file, fileName: file.name };
      return failure;
    });
  }

  async importTried(): Promise<void> {
    const { tried } = this;
    if (!tried) return;
    const { file } = tried;
    await this.#alone(async () => {
      const { total, failure } = await this.#send(file, false);
      // What came in before a failure is in: said too, so that nobody thinks it is not.
      if (failure === null || total.imported > 0) this.imported = { ...total, fileName: file.name };
      await this.#list.read();
      return failure;
    });
  }

  async #send(file: File, isDryRun: boolean) {
    const total = { imported: 0, known: 0, faults: [] as OutputOf<'case:import'>['faults'] };
    for await (const { firstLine, text } of linesOfFile(file)) {
      const reply = await this.#host.call('case:import', { jsonLines: text, isDryRun });
      if (!reply.ok) return { total, failure: reply.error };
      total.imported += reply.value.imported;
      total.known += reply.value.known;
      total.faults.push(...reply.value.faults.map((one) => ({ ...one, line: firstLine + one.line - 1 })));
    }
    return { total, failure: null };
  }

  /** One transfer at a time; a second press does nothing. */
  async #alone(work: () => Promise<ReplyError | null>): Promise<void> {
    if (this.isBusy) return;
    this.isBusy = true;
    this.failure = null;
    this.exported = null;
    this.imported = null;
    this.tried = null;
    try {
      this.failure = await work();
    } finally {
      this.isBusy = false;
    }
  }
}

/** As many ids as one call takes. */
const MOST_IDS = 10_000;

function lotsOf(ids: readonly string[]): string[][] {
  return Array.from({ length: Math.ceil(ids.length / MOST_IDS) }, (_, lot) =>
    ids.slice(lot * MOST_IDS, (lot + 1) * MOST_IDS),
  );
}
