import type { WhyCandidate, WhyCheck } from '../contract/case-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseContext } from './case-machine.ts';

export function whyCandidate(_knowledge: Knowledge, _context: CaseContext, _cause: string): WhyCandidate {
  throw new Error('provisional');
}

export function whyCheck(_knowledge: Knowledge, _context: CaseContext, _observation: string): WhyCheck {
  throw new Error('provisional');
}
