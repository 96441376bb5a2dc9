import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';
import type { SpoolEvent, SpoolReport } from '../../../src-core/contract/spool-life.ts';

/** One spool on one screen: its report as asked for, and what is logged about it. */
export class SpoolSession {
  readonly spoolId: string;
  report = $state.raw<SpoolReport | null>(null);
  readFailure = $state.raw<ReplyError | null>(null);
  logFailure = $state('');
  isBusy = $state(false);
  flowMm3PerS = $state<number | null>(null);
  dryerTemperatureC = $state<number | null>(null);
  isDryAir = $state(false);
  /** Printers that it can be put on. */
  printers = $state.raw<readonly { readonly id: string; readonly label: string }[]>([]);
  targetPercent = $state<number | null>(null);

  readonly #host: HostApi;
  #asked = 0;

  /** `flowMm3PerS` to begin with, from the address; one that cannot be means the usual flow. */
  constructor(host: HostApi, spoolId: string, flowMm3PerS = Number.NaN) {
    if (flowMm3PerS >= 0.1 && flowMm3PerS <= 200) this.flowMm3PerS = flowMm3PerS;
    this.#host = host;
    this.spoolId = spoolId;
  }

  async readPrinters(): Promise<void> {
    const reply = await this.#host.call('shop:read', {});
    if (reply.ok) this.printers = reply.value.printers.filter(({ isRetired }) => !isRetired);
  }

  /** Reads the report with what is set; an answer that a newer question has overtaken is left aside. */
  async read(): Promise<void> {
    const asked = ++this.#asked;
    const { spoolId, flowMm3PerS, dryerTemperatureC, isDryAir, targetPercent } = this;
    const reply = await this.#host.call('spool:read', {
      spoolId,
      flowMm3PerS,
      dryerTemperatureC,
      isDryAir,
      targetPercent,
    });
    if (asked !== this.#asked) return;
    if (reply.ok) {
      this.report = reply.value;
      this.readFailure = null;
    } else this.readFailure = reply.error;
  }

  /** Logs one thing; a second press while the first is written counts once. True when it was recorded. */
  async log(event: SpoolEvent, at: string | null = null): Promise<boolean> {
    // What is logged rests on what stands there: nothing before it is read.
    if (this.isBusy || !this.report) return false;
    this.isBusy = true;
    this.logFailure = '';
    const { revision } = this.report;
    const reply = await this.#host.call('spool:log', { spoolId: this.spoolId, event, at, revision });
    this.isBusy = false;
    if (!reply.ok) {
      // What stands there now is shown beside the reason.
      if (reply.error.code === 'stale') await this.read();
      this.logFailure = reply.error.message;
      return false;
    }
    await this.read();
    return true;
  }
}
