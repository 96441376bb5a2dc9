import type { CaseState } from '../../../src-core/contract/case-view.ts';
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
import { gatherCases, type GatheredCases } from './gather-cases.ts';

/** Cases that one print holds: some forty sheets of paper. */
export const MOST_PRINTED = 2000;

/** The casebook's list: what is asked for, the page that came back, and how many cases stand where. */
export class CaseList {
  filter = $state.raw<ListFilter>(NO_FILTER);
  rows = $state.raw<readonly CaseRow[] | null>(null);
  total = $state(0);
  /** A search found more than `total`. */
  isMore = $state(false);
  counts = $state.raw<Readonly<Partial<Record<Standing, number>>>>({});
  failure = $state.raw<ReplyError | null>(null);
  isReading = $state(false);
  /** All cases of the filter while they are being printed, at most {@link MOST_PRINTED}; null otherwise. */
  printed = $state.raw<GatheredCases | null>(null);
  isGathering = $state(false);

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
    this.printed = null;
    await this.read();
  }

  /** Reads the page and the counts; only the newest answer counts when several are under way. */
  async read(): Promise<void> {
    const turn = ++this.#asked;
    if (faultOfPeriod(this.filter.period)) return;
    this.isReading = true;
    const call = filterToCall(this.filter, this.#now());
    const list = await this.#host.call('case:list', call);
    if (turn !== this.#asked) return;
    this.isReading = false;
    if (!list.ok) {
      this.failure = list.error;
      return;
    }
    this.failure = null;
    this.total = list.value.total;
    this.isMore = list.value.isMore;
    this.rows = list.value.rows;
    const { byState } = list.value;
    const all = Object.values(byState).reduce((sum, count) => sum + count, 0);
    const counted = (states: readonly CaseState[]) =>
      states.length === 0 ? all : states.reduce((sum, state) => sum + (byState[state] ?? 0), 0);
    this.counts = Object.fromEntries(STANDINGS.map(({ id, states }) => [id, counted(states)]));
    // A page beyond the end, from an old address: go to the last one there is.
    if (list.value.rows.length === 0 && this.filter.page > pageCount(this.total)) {
      await this.change({ page: pageCount(this.total) });
    }
  }

  /**
   * Gathers in `printed` what a print holds: all cases of the filter, not only the page that is looked at. Answers
   * whether to print; not so where a page did not come, or where the filter was changed meanwhile.
   */
  async gatherForPrint(): Promise<boolean> {
    if (this.isGathering || faultOfPeriod(this.filter.period)) return false;
    const { filter } = this;
    this.isGathering = true;
    const gathered = await this.#gather(MOST_PRINTED);
    this.isGathering = false;
    if (this.filter !== filter) return false;
    this.failure = 'code' in gathered ? gathered : null;
    if ('code' in gathered) return false;
    // Of an empty list the screen's own words are printed.
    this.printed = gathered.rows.length > 0 ? gathered : null;
    return true;
  }

  /** Ids of all cases that match the filter, for an export; an error when one of the pages did not come. */
  async idsOfFiltered(): Promise<readonly string[] | ReplyError> {
    const gathered = await this.#gather(Infinity);
    return 'code' in gathered ? gathered : gathered.rows.map((row) => row.caseId);
  }

  #gather(most: number): Promise<GatheredCases | ReplyError> {
    return gatherCases(this.#host, filterToCall(this.filter, this.#now()), most);
  }
}
