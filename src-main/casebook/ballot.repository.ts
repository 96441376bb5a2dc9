import type { BallotInput, BallotResult } from '../../src-core/contract/vote-view.ts';
import type { CasebookDb } from './casebook.ts';

/** The vote that is under way. There is one at a time in a casebook, whatever station it was put up at. */
export interface StoredBallot {
  readonly asked: BallotInput;
  readonly askedAt: string;
  /** Null until it is revealed. */
  readonly result: BallotResult | null;
}

export interface StoredVote {
  /** Who it counts for: a person wherever signed in, or a device on which nobody is. */
  readonly voter: string;
  /** What the device is called. */
  readonly label: string;
  readonly personId: string | null;
  readonly initials: string | null;
  readonly choice: string;
}

export async function readBallot(db: CasebookDb): Promise<StoredBallot | null> {
  const row = await db.selectFrom('ballots').selectAll().orderBy('asked_at', 'desc').executeTakeFirst();
  if (!row) return null;
  return {
    asked: JSON.parse(row.ballot_json) as BallotInput,
    askedAt: row.asked_at,
    result: row.result_json === null ? null : (JSON.parse(row.result_json) as BallotResult),
  };
}

/** Puts a vote up in the place of whatever was up before; "there", with nothing changed, where it is up already. */
export async function putUpBallot(
  db: CasebookDb,
  asked: BallotInput,
  askedAt: string,
): Promise<'put up' | 'there'> {
  return db.transaction().execute(async (trx) => {
    const known = await trx
      .selectFrom('ballots')
      .select('id')
      .where('id', '=', asked.ballotId)
      .executeTakeFirst();
    if (known) return 'there';
    await takeDown(trx);
    await trx
      .insertInto('ballots')
      .values({
        id: asked.ballotId,
        asked_at: askedAt,
        ballot_json: JSON.stringify(asked),
        result_json: null,
      })
      .execute();
    return 'put up';
  });
}

/** Takes the vote down, with all that was voted. */
export function takeDownBallot(db: CasebookDb): Promise<void> {
  return db.transaction().execute(takeDown);
}

async function takeDown(db: CasebookDb): Promise<void> {
  await db.deleteFrom('ballot_votes').execute();
  await db.deleteFrom('ballots').execute();
}

/** Lets everybody see how it came out; false where this vote is not up any more. */
export async function revealBallot(db: CasebookDb, ballotId: string, result: BallotResult): Promise<boolean> {
  const written = await db
    .updateTable('ballots')
    .set({ result_json: JSON.stringify(result) })
    .where('id', '=', ballotId)
    .executeTakeFirst();
  return written.numUpdatedRows > 0n;
}

/** In the order in which somebody looks for a name. */
export async function listVotes(db: CasebookDb, ballotId: string): Promise<readonly StoredVote[]> {
  const rows = await db
    .selectFrom('ballot_votes')
    .selectAll()
    .where('ballot_id', '=', ballotId)
    .orderBy('label')
    .orderBy('voter')
    .execute();
  return rows.map(({ voter, label, person_id, initials, choice }) => ({
    voter,
    label,
    personId: person_id,
    initials,
    choice,
  }));
}

/**
 * Counts a vote; the voter's earlier one in this vote, and those of `others` (the same device before anybody signed in), count
 * no more. False, with nothing written, where the vote is not open any more.
 */
export async function castVote(
  db: CasebookDb,
  ballotId: string,
  { voter, label, personId, initials, choice }: StoredVote,
  others: readonly string[],
): Promise<boolean> {
  return db.transaction().execute(async (trx) => {
    const open = await trx
      .selectFrom('ballots')
      .select('id')
      .where('id', '=', ballotId)
      .where('result_json', 'is', null)
      .executeTakeFirst();
    if (!open) return false;
    await trx
      .deleteFrom('ballot_votes')
      .where('ballot_id', '=', ballotId)
      .where('voter', 'in', [voter, ...others])
      .execute();
    await trx
      .insertInto('ballot_votes')
      .values({ ballot_id: ballotId, voter, label, person_id: personId, initials, choice })
      .execute();
    return true;
  });
}
