import { caseEventSchema } from '../../src-core/contract/case-event.ts';
import type { ConfirmedCase } from '../../src-core/learning/own-experience.ts';
import type { CasebookDb } from './casebook.ts';

/** A closed case with the causes that it was closed with, and what was known when it was opened. */
export interface ConfirmedRow extends ConfirmedCase {
  readonly caseId: string;
  /** Entries of its log. */
  readonly revision: number;
  readonly closedAt: string;
  readonly isDemo: boolean;
  /** Causes that the guide does not have, in the words of whoever closed it. */
  readonly namedByHand: readonly string[];
}

/** How many cases are closed, and when the last of them was: what is worked out from them holds while this does. */
export async function closedMark(db: CasebookDb): Promise<string> {
  const row = await db
    .selectFrom('cases')
    .select((eb) => [
      eb.fn.countAll().as('count'),
      eb.fn.max('closed_at').as('last'),
      eb.fn.sum('revision').as('revisions'),
    ])
    .where('state', '=', 'closed')
    .executeTakeFirst();
  return JSON.stringify(row ?? null);
}

/** The newest closed cases, `most` of them, newest first. An opening that cannot be read counts without circumstances. */
export async function listConfirmed(db: CasebookDb, most: number): Promise<readonly ConfirmedRow[]> {
  const cases = await db
    .selectFrom('cases')
    .innerJoin('case_events', (join) =>
      join.onRef('case_events.case_id', '=', 'cases.id').on('case_events.seq', '=', 1),
    )
    .select([
      'cases.id',
      'cases.revision',
      'cases.printer_id',
      'cases.closed_at',
      'cases.is_demo',
      'case_events.event_json',
    ])
    .where('cases.state', '=', 'closed')
    .where('cases.closed_at', 'is not', null)
    .orderBy('cases.closed_at', 'desc')
    .limit(most)
    .execute();
  const causes = await db
    .selectFrom('case_causes')
    .innerJoin('cases', 'cases.id', 'case_causes.case_id')
    .select(['case_causes.case_id', 'case_causes.cause', 'case_causes.label', 'case_causes.is_named_by_hand'])
    .where('cases.state', '=', 'closed')
    .orderBy('case_causes.position')
    .execute();
  const causesOf = Map.groupBy(causes, ({ case_id }) => case_id);
  return cases.map((row) => {
    const own = causesOf.get(row.id) ?? [];
    return {
      caseId: row.id,
      revision: row.revision,
      printerId: row.printer_id,
      closedAt: row.closed_at ?? '',
      isDemo: row.is_demo === 1,
      causes: own.filter((one) => one.is_named_by_hand === 0).map(({ cause }) => cause),
      namedByHand: own.filter((one) => one.is_named_by_hand === 1).map(({ label }) => label),
      conditions: conditionsIn(row.event_json),
    };
  });
}

function conditionsIn(json: string): ConfirmedCase['conditions'] {
  try {
    const event = caseEventSchema.safeParse(JSON.parse(json));
    return event.success && event.data.kind === 'opened' ? event.data.intake.conditions : {};
  } catch {
    return {};
  }
}
