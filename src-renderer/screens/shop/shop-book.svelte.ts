import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type {
  PersonInput,
  PrinterInput,
  RecordToDelete,
  Shop,
  SpoolInput,
} from '../../../src-core/contract/shop-records.ts';
import type { ShopCostsInput } from '../../../src-core/contract/shop-costs.ts';
import type { RoomClimate } from '../../../src-core/contract/spool-life.ts';
import type { Reply, ReplyError } from '../../../src-core/contract/reply.ts';
import { WatchedWork } from '../../host/watched-work.svelte.ts';
import { m } from '../../messages/en/shop.ts';

/** The shop's records and what can be done with them; every change answers with the whole shop as it is now. */
export class ShopBook {
  #host: HostApi;
  shop = $state.raw<Shop | null>(null);
  readFailure = $state.raw<ReplyError | null>(null);
  isBusy = $state(false);
  readonly demo: WatchedWork;

  constructor(host: HostApi) {
    this.#host = host;
    this.demo = new WatchedWork(host);
  }

  async read(): Promise<void> {
    this.readFailure = null;
    const reply = await this.#host.call('shop:read', {});
    if (reply.ok) this.shop = reply.value;
    else this.readFailure = reply.error;
  }

  /** Each answers with what went wrong, or an empty text. */
  savePrinter(printer: PrinterInput): Promise<string> {
    return this.#change(() => this.#host.call('shop:save-printer', printer));
  }

  saveSpool(spool: SpoolInput): Promise<string> {
    return this.#change(() => this.#host.call('shop:save-spool', spool));
  }

  savePerson(person: PersonInput): Promise<string> {
    return this.#change(() => this.#host.call('shop:save-person', person));
  }

  /** Deletes a printer or spool that no case names, with its own log. */
  deleteRecord(record: RecordToDelete): Promise<string> {
    return this.#change(() => this.#host.call('shop:delete-record', record));
  }

  /** Other initials in every log as well. */
  renamePerson(personId: string, initials: string, revision: number): Promise<string> {
    return this.#change(() => this.#host.call('person:rename', { personId, initials, revision }));
  }

  removePerson(personId: string, revision: number): Promise<string> {
    return this.#change(() => this.#host.call('person:remove', { personId, revision }));
  }

  /** `revision`: of the air that the change rests on. */
  saveClimate(climate: RoomClimate, revision: number): Promise<string> {
    return this.#change(() => this.#host.call('shop:save-climate', { climate, revision }));
  }

  /** `revision`: of the costs that the change rests on. */
  saveCosts(costs: ShopCostsInput | null, revision: number): Promise<string> {
    return this.#change(() => this.#host.call('shop:save-costs', { costs, revision }));
  }

  loadDemo(): Promise<string> {
    return this.#change(() => this.demo.run((workId) => this.#host.call('demo:load', { workId })));
  }

  removeDemo(): Promise<string> {
    return this.#change(() => this.#host.call('demo:remove', {}));
  }

  async #change(call: () => Promise<Reply<Shop>>): Promise<string> {
    if (this.isBusy) return m.theLastChangeIsStillBeing();
    this.isBusy = true;
    const reply = await call();
    // What stands there now is shown beside the reason.
    if (!reply.ok && reply.error.code === 'stale') await this.read();
    this.isBusy = false;
    if (!reply.ok) return reply.error.message;
    this.shop = reply.value;
    return '';
  }
}
