import type { BallotKind } from '../../src-core/contract/vote-view.ts';
import { m } from '../messages/en/vote.ts';

/** What a group is asked. */
export const VOTE_QUESTIONS: Readonly<Record<BallotKind, string>> = {
  check: m.whatDoWeCheckNext(),
  remedy: m.whatDoWeTry(),
  cause: m.whatIsBehindIt(),
};

export function votesIn(count: number): string {
  return m.votesAreIn({ count });
}
