import type { Application, FitReport } from '../../../src-core/contract/material-fit.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';

/** What is asked when the screen opens: a part at room temperature that has to bear nothing yet. */
const NOTHING_YET: Application = {
  serviceTemperatureC: 25,
  lowestServiceTemperatureC: null,
  steadyLoad: 'none',
  impact: 'none',
  isOutdoors: false,
  agents: [],
  sliding: 'none',
  stiffness: 'any',
  looks: 'any',
  contact: 'none',
  standsInFor: null,
};

/** One use of a part, and how the materials do in it; the answer follows every change. */
export class MaterialFitQuestion {
  application = $state.raw<Application>(NOTHING_YET);
  filler = $state('none');
  failedPolymer = $state<string | null>(null);
  failedFiller = $state('none');
  report = $state.raw<FitReport | null>(null);
  failure = $state.raw<ReplyError | null>(null);

  readonly #host: HostApi;
  #asked = 0;

  constructor(host: HostApi) {
    this.#host = host;
  }

  async change(fields: Partial<Application>): Promise<void> {
    this.application = { ...this.application, ...fields };
    await this.ask();
  }

  async ask(): Promise<void> {
    const turn = ++this.#asked;
    const reply = await this.#host.call('fit:materials', {
      application: this.application,
      filler: this.filler,
      failedPart:
        this.failedPolymer === null ? null : { polymer: this.failedPolymer, filler: this.failedFiller },
    });
    if (turn !== this.#asked) return;
    if (reply.ok) {
      this.report = reply.value;
      this.failure = null;
    } else this.failure = reply.error;
  }
}
