import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import type { CaseView, WhyCandidate, WhyCheck } from '../../../src-core/contract/case-view.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { Reply } from '../../../src-core/contract/reply.ts';
import type { SecondThoughts } from '../../../src-core/contract/second-thoughts-view.ts';

/** Where a case on the screen comes from and its events go: the casebook, or a practice case. */
export interface CaseLink {
  view(): Promise<Reply<CaseView>>;
  /** `revision` is what was on the screen; where another is there by now the reply is "stale" with the case as it stands. */
  send(event: CaseEvent, revision: number): Promise<Reply<CaseView>>;
  whyCandidate(cause: string): Promise<Reply<WhyCandidate>>;
  whyCheck(observation: string): Promise<Reply<WhyCheck>>;
  secondThoughts(): Promise<Reply<SecondThoughts | null>>;
}

/** A case of the casebook. */
export function casebookLink(host: HostApi, caseId: string): CaseLink {
  return {
    view: () => host.call('case:view', { caseId }),
    send: (event, revision) => host.call('case:send', { caseId, revision, event }),
    whyCandidate: (cause) => host.call('case:why-candidate', { caseId, cause }),
    whyCheck: (observation) => host.call('case:why-check', { caseId, observation }),
    secondThoughts: () => host.call('case:second-thoughts', { caseId }),
  };
}
