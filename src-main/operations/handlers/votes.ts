import type { Ballot } from '../../../src-core/contract/vote-view.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import {
  castVote,
  listVotes,
  putUpBallot,
  readBallot,
  revealBallot,
  takeDownBallot,
} from '../../casebook/ballot.repository.ts';
import { teaches, type Visitor } from '../access/visitor.ts';
import type { ApplicationContext } from '../application-context.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

/** A vote that nobody took down is over after this: a session is an afternoon at most. */
const LASTS_HOURS = 12;

export const voteLook: Handler<'vote:look'> = async (program, _input, by) => viewFor(program, by);

export const voteAsk: Handler<'vote:ask'> = async (program, asked, by) => {
  const put = await putUpBallot(program.casebook.db, asked, program.now().toISOString());
  const view = await viewFor(program, by);
  if (put === 'there') throw new DomainError('stale', refusals.voteUp(), view);
  return view;
};

export const voteCast: Handler<'vote:cast'> = async (program, { ballotId, choice }, by) => {
  if (by.kind === 'owner') throw new DomainError('refused', refusals.votesFromDevices());
  const ballot = await openBallot(program, ballotId);
  if (ballot?.asked.choices.every(({ id }) => id !== choice))
    throw new DomainError('bad-request', refusals.noSuchChoice({ choice }));
  const { deviceId, label, person } = by;
  const device = `device ${deviceId}`;
  const voter = person ? `person ${person.id}` : device;
  const isCast =
    ballot !== null &&
    (await castVote(
      program.casebook.db,
      ballotId,
      { voter, label, personId: person?.id ?? null, initials: person?.initials ?? null, choice },
      [device],
    ));
  const view = await viewFor(program, by);
  if (!isCast) throw new DomainError('stale', refusals.voteOver(), view);
  return view;
};

export const voteReveal: Handler<'vote:reveal'> = async (program, { ballotId, result }, by) => {
  const isRevealed =
    (await openBallot(program, ballotId)) !== null &&
    (await revealBallot(program.casebook.db, ballotId, result));
  const view = await viewFor(program, by);
  if (!isRevealed) throw new DomainError('stale', refusals.voteGone(), view);
  return view;
};

export const voteEnd: Handler<'vote:end'> = async (program, _input, by) => {
  await takeDownBallot(program.casebook.db);
  return viewFor(program, by);
};

/** The vote that is up and not over, if it is this one where one is named. */
async function openBallot(program: ApplicationContext, ballotId: string | null = null) {
  const ballot = await readBallot(program.casebook.db);
  if (ballot === null || (ballotId !== null && ballot.asked.ballotId !== ballotId)) return null;
  const isOver = program.now().getTime() - Date.parse(ballot.askedAt) > LASTS_HOURS * 3_600_000;
  return isOver ? null : ballot;
}

/** The vote as this visitor may see it: its own choice, how others voted once it is revealed, who voted what if it leads. */
async function viewFor(program: ApplicationContext, by: Visitor): Promise<{ ballot: Ballot | null }> {
  const stored = await openBallot(program);
  if (stored === null) return { ballot: null };
  const { asked, askedAt, result } = stored;
  const votes = await listVotes(program.casebook.db, asked.ballotId);
  const own =
    by.kind === 'owner'
      ? undefined
      : (votes.find(({ personId }) => by.person !== null && personId === by.person.id) ??
        votes.find(({ voter }) => voter === `device ${by.deviceId}`));
  return {
    ballot: {
      ...asked,
      askedAt,
      cast: votes.length,
      own: own?.choice ?? null,
      result: result && {
        ...result,
        votes: asked.choices.map(({ id }) => ({
          choice: id,
          count: votes.filter(({ choice }) => choice === id).length,
        })),
      },
      voters: teaches(by)
        ? votes.map(({ label, personId, initials, choice }) => ({ label, personId, initials, choice }))
        : null,
    },
  };
}
