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

/** Materials that are set side by side at most. */
export const MOST_BESIDE = 3;

/** One use of a part, and how the materials do in it; the answer follows every change. */
export class MaterialFitQuestion {
  application = $state.raw<Application>(NOTHING_YET);
  filler = $state('none');
  failedPolymer = $state<string | null>(null);
  failedFiller = $state('none');
  report = $state.raw<FitReport | null>(null);
  failure = $state.raw<ReplyError | null>(null);
  /** Polymers put side by side, in the order of picking. */
  beside = $state.raw<readonly string[]>([]);

  readonly #host: HostApi;
  #asked = 0;

  constructor(host: HostApi) {
    this.#host = host;
  }

  async change(fields: Partial<Application>): Promise<void> {
    this.application = { ...this.application, ...fields };
    await this.ask();
  }

  /** Puts a polymer beside the others or takes it away; more than a few columns nobody can read. */
  putBeside(polymer: string, isBeside: boolean): void {
    const others = this.beside.filter((one) => one !== polymer);
    this.beside = isBeside && others.length < MOST_BESIDE ? [...others, polymer] : others;
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
