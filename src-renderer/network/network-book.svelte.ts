import type { Network } from '../../src-core/contract/network-view.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';

/** The door for tablets and phones. */
export class NetworkBook {
  network = $state.raw<Network | null>(null);
  /** Why it is not known, or was not changed; empty where all is well. */
  failure = $state('');
  /** It is not for whoever is at this screen. */
  isForOthers = $state(false);
  isBusy = $state(false);
  readonly #host: HostApi;

  constructor(host: HostApi) {
    this.#host = host;
  }

  async read(): Promise<void> {
    const reply = await this.#host.call('network:read', {});
    this.isForOthers = !reply.ok && reply.error.code === 'forbidden';
    this.failure = reply.ok ? '' : reply.error.message;
    if (reply.ok) this.network = reply.value;
  }

  async switchTo(isOpen: boolean): Promise<void> {
    if (this.isBusy) return;
    this.isBusy = true;
    const reply = await this.#host.call('network:switch', { isOpen });
    this.isBusy = false;
    this.failure = reply.ok ? '' : reply.error.message;
    if (reply.ok) this.network = reply.value;
  }
}
