import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { Grouping } from '../../../src-core/contract/recurrence-choices.ts';
import type { Recurrence, RecurrenceRow } from '../../../src-core/contract/recurrence-view.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';
import { faultOfPeriod, periodDays, type Period } from '../../wording/period.ts';
import { m } from '../../messages/en/recurrence.ts';

export const ROW_ORDERS = {
  surprising: m.mostUnusualFirst(),
  costliest: m.mostTimeLostFirst(),
  frequent: m.mostCasesFirst(),
} as const;
export type RowOrder = keyof typeof ROW_ORDERS;

/** Rows shown until all are asked for. */
const FEW_ROWS = 10;

/** What comes back in a period. */
export class RecurrenceReport {
  period = $state.raw<Period>({ kind: 'months12', fromDay: '', toDay: '' });
  by = $state<Grouping>('printer');
  order = $state<RowOrder>('surprising');
  isAllShown = $state(false);
  recurrence = $state.raw<Recurrence | null>(null);
  failure = $state.raw<ReplyError | null>(null);
  /** First and last day of what is shown; open where null. Another object where other days, or another clock, are shown. */
  days = $state.raw<ReturnType<typeof periodDays>>({ fromDay: null, toDay: null });

  readonly #host: HostApi;
  readonly #now: () => Date;
  #asked = 0;

  constructor(host: HostApi, now: () => Date) {
    this.#host = host;
    this.#now = now;
  }

  async choose(period: Period): Promise<void> {
    this.period = period;
    await this.read();
  }

  async group(by: Grouping): Promise<void> {
    this.by = by;
    this.isAllShown = false;
    await this.read();
  }

  async read(): Promise<void> {
    if (faultOfPeriod(this.period)) return;
    const turn = ++this.#asked;
    const days = periodDays(this.period, this.#now());
    const reply = await this.#host.call('lead:recurrence', { ...days, by: this.by });
    if (turn !== this.#asked) return;
    if (reply.ok) {
      const isSameTime =
        days.fromDay === this.days.fromDay &&
        days.toDay === this.days.toDay &&
        reply.value.timeZone === this.recurrence?.timeZone;
      this.recurrence = reply.value;
      if (!isSameTime) this.days = days;
      this.failure = null;
    } else this.failure = reply.error;
  }

  async saveTimeZone(timeZone: string | null): Promise<string> {
    const reply = await this.#host.call('lead:save-time-zone', { timeZone });
    if (reply.ok) await this.read();
    return reply.ok ? '' : reply.error.message;
  }

  /** What went wrong, or an empty text. */
  async saveUsualHours(printerId: string, hoursPerWeek: number | null): Promise<string> {
    const reply = await this.#host.call('lead:save-usual-hours', { printerId, hoursPerWeek });
    if (reply.ok) await this.read();
    return reply.ok ? '' : reply.error.message;
  }

  /** Rows in the chosen order: the first few of those that came at least twice, or all. */
  get rows(): readonly RecurrenceRow[] {
    const all = this.recurrence?.rows ?? [];
    if (this.isAllShown) return ordered(all, this.order);
    return ordered(
      all.filter((row) => row.count > 1),
      this.order,
    ).slice(0, FEW_ROWS);
  }
}

export function ordered(rows: readonly RecurrenceRow[], order: RowOrder): readonly RecurrenceRow[] {
  if (order === 'costliest') return rows.toSorted((a, b) => b.minutesLost - a.minutesLost);
  if (order === 'frequent') return rows.toSorted((a, b) => b.count - a.count);
  return rows;
}
