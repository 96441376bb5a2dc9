import type { BallotKind } from '../../src-core/contract/vote-view.ts';

/** What a group is asked. */
export const VOTE_QUESTIONS: Readonly<Record<BallotKind, string>> = {
  check: 'What do we check next?',
  remedy: 'What do we try?',
  cause: 'What is behind it?',
};

export function votesIn(count: number): string {
  return count === 1 ? '1 vote is in' : `${count} votes are in`;
}
