import type { CaseRow } from '../../../src-core/contract/casebook-view.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';
import { faultOfPeriod } from '../../wording/period.ts';
import {
  filterToCall,
  NO_FILTER,
  pageCount,
  STANDINGS,
  type ListFilter,
  type Standing,
} from './case-filter.ts';

/** The casebook's list: what is asked for, the page that came back, and how many cases stand where. */
export class CaseList {
  filter = $state.raw<ListFilter>(NO_FILTER);
  rows = $state.raw<readonly CaseRow[] | null>(null);
  total = $state(0);
  counts = $state.raw<Readonly<Partial<Record<Standing, number>>>>({});
  failure = $state.raw<ReplyError | null>(null);
  isReading = $state(false);

  readonly #host: HostApi;
  readonly #now: () => Date;
  #asked = 0;

  constructor(host: HostApi, now: () => Date) {
    this.#host = host;
    this.#now = now;
  }

  /** Changes the filter and reads; anything but a turn of the page goes back to the first page. */
  async change(part: Partial<ListFilter>): Promise<void> {
    this.filter = { ...this.filter, page: 1, ...part };
    await this.read();
  }

  /** Reads the page and the counts; only the newest answer counts when several are under way. */
  async read(): Promise<void> {
    const turn = ++this.#asked;
    if (faultOfPeriod(this.filter.period)) return;
    this.isReading = true;
    const call = filterToCall(this.filter, this.#now());
    const [list, ...counted] = await Promise.all([
      this.#host.call('case:list', call),
      ...STANDINGS.map(({ states }) =>
        this.#host.call('case:list', { ...call, states: [...states], offset: 0, limit: 1 }),
      ),
    ]);
    if (turn !== this.#asked) return;
    this.isReading = false;
    if (!list.ok) {
      this.failure = list.error;
      return;
    }
    this.failure = null;
    this.total = list.value.total;
    this.rows = list.value.rows;
    this.counts = Object.fromEntries(
      STANDINGS.map(({ id }, index) => {
        const reply = counted[index];
        return [id, reply?.ok ? reply.value.total : undefined];
      }),
    );
    // A page beyond the end, from an old address: go to the last one there is.
    if (list.value.rows.length === 0 && this.filter.page > pageCount(this.total)) {
      await this.change({ page: pageCount(this.total) });
    }
  }

  /** Ids of all cases that match the filter, for an export; null when one of the pages did not come. */
  async idsOfFiltered(): Promise<readonly string[] | ReplyError> {
    const ids: string[] = [];
    const call = { ...filterToCall(this.filter, this.#now()), limit: 200 };
    for (let offset = 0; ; offset += call.limit) {
      const reply = await this.#host.call('case:list', { ...call, offset });
      if (!reply.ok) return reply.error;
      ids.push(...reply.value.rows.map((row) => row.caseId));
      if (reply.value.rows.length < call.limit) return ids;
    }
  }
}
