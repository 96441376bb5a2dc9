import type { Timeline } from '../../../src-core/contract/casebook-view.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';

export type TimelineStep = Timeline['steps'][number];

export interface RankedCause {
  readonly cause: string;
  readonly label: string;
  readonly probability: number;
  /** After the step before; null at the first step, and where the cause was not among the listed ones. */
  readonly before: number | null;
}

/** A case replayed step by step. */
export class TimelineReplay {
  readonly caseId: string;
  timeline = $state.raw<Timeline | null>(null);
  failure = $state.raw<ReplyError | null>(null);
  /** Index of the step that is looked at. */
  at = $state(0);

  readonly #host: HostApi;

  constructor(host: HostApi, caseId: string) {
    this.#host = host;
    this.caseId = caseId;
  }

  async load(): Promise<void> {
    this.failure = null;
    const reply = await this.#host.call('case:timeline', { caseId: this.caseId });
    if (reply.ok) {
      this.timeline = reply.value;
      this.at = Math.max(0, reply.value.steps.length - 1);
    } else this.failure = reply.error;
  }

  get steps(): readonly TimelineStep[] {
    return this.timeline?.steps ?? [];
  }

  get step(): TimelineStep | null {
    return this.steps[this.at] ?? null;
  }

  goTo(index: number): void {
    this.at = Math.min(Math.max(0, index), Math.max(0, this.steps.length - 1));
  }

  /** The ranking after the step that is looked at, with what each cause had after the step before. */
  get ranking(): readonly RankedCause[] {
    return rankingAt(this.steps, this.at);
  }
}

export function rankingAt(steps: readonly TimelineStep[], at: number): readonly RankedCause[] {
  const before = steps[at - 1]?.candidates;
  return (steps[at]?.candidates ?? []).map((one) => ({
    ...one,
    before: before?.find(({ cause }) => cause === one.cause)?.probability ?? null,
  }));
}
