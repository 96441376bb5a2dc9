import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { OwnExperience, OwnExperienceChoice } from '../../../src-core/contract/own-experience-view.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';

/** What the shop's own cases say beside the guide, and whether they count. */
export class ExperienceBook {
  found = $state.raw<OwnExperience | null>(null);
  printerId = $state<string | null>(null);
  /** Why nothing can be shown. */
  failure = $state.raw<ReplyError | null>(null);
  /** Why a choice was not kept. */
  notKept = $state('');

  readonly #host: HostApi;
  #asked = 0;

  constructor(host: HostApi) {
    this.#host = host;
  }

  async read(printerId: string | null = this.printerId): Promise<void> {
    this.printerId = printerId;
    const turn = ++this.#asked;
    const reply = await this.#host.call('lead:experience', { printerId });
    if (turn !== this.#asked) return;
    this.failure = reply.ok ? null : reply.error;
    if (reply.ok) this.found = reply.value;
  }

  async choose(choice: OwnExperienceChoice): Promise<void> {
    if (!this.found) return;
    const reply = await this.#host.call('lead:save-experience', { choice, revision: this.found.revision });
    this.notKept = reply.ok ? '' : reply.error.message;
    await this.read();
  }
}
