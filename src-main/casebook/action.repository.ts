import { actionEventSchema, type ActionEvent } from '../../src-core/contract/action-view.ts';
import type { LoggedActionEvent } from '../../src-core/recurrence/action-log.ts';
import { appendUnlessOvertaken } from './append-unless-overtaken.ts';
import type { CasebookDb } from './casebook.ts';

export interface StoredAction {
  readonly actionId: string;
  readonly isDemo: boolean;
  /** Oldest first, without those that this version cannot read. */
  readonly log: readonly LoggedActionEvent[];
  /** Number of the newest entry, readable or not. */
  readonly revision: number;
  readonly unreadable: number;
}

/** All actions with their logs, in the order in which they were opened. */
export async function listActions(db: CasebookDb): Promise<readonly StoredAction[]> {
  const rows = await db
    .selectFrom('actions')
    .innerJoin('action_events', 'action_events.action_id', 'actions.id')
    .select([
      'actions.id',
      'actions.is_demo',
      'action_events.seq',
      'action_events.at',
      'action_events.event_json',
    ])
    .orderBy('actions.id')
    .orderBy('action_events.seq')
    .execute();
  return [...Map.groupBy(rows, ({ id }) => id)].map(([actionId, own]) => {
    const log = own.flatMap(({ seq, at, event_json }) => {
      const event = eventOf(event_json);
      return event ? [{ seq, at, event }] : [];
    });
    return {
      actionId,
      isDemo: own[0]?.is_demo === 1,
      log,
      revision: own.at(-1)?.seq ?? 0,
      unreadable: own.length - log.length,
    };
  });
}

/** Begins an action with its first entries; within the caller's transaction. */
export async function insertAction(
  trx: CasebookDb,
  actionId: string,
  log: readonly LoggedActionEvent[],
  isDemo = false,
): Promise<void> {
  await trx
    .insertInto('actions')
    .values({ id: actionId, is_demo: isDemo ? 1 : 0 })
    .execute();
  for (const logged of log) await insertEvent(trx, actionId, logged);
}

/** Appends one entry; "stale", with nothing written, where another came before it since the caller read the log. */
export async function appendActionEvent(
  db: CasebookDb,
  actionId: string,
  logged: LoggedActionEvent,
): Promise<'appended' | 'stale'> {
  const appended = await appendUnlessOvertaken(db, {
    revision: logged.seq - 1,
    standsAt: async (trx) => {
      const last = await trx
        .selectFrom('action_events')
        .select(({ fn }) => fn.max('seq').as('seq'))
        .where('action_id', '=', actionId)
        .executeTakeFirst();
      return Number(last?.seq ?? 0);
    },
    write: (trx) => insertEvent(trx, actionId, logged),
  });
  return appended === 'stale' ? 'stale' : 'appended';
}

async function insertEvent(
  trx: CasebookDb,
  actionId: string,
  { seq, at, event }: LoggedActionEvent,
): Promise<void> {
  await trx
    .insertInto('action_events')
    .values({ action_id: actionId, seq, at, event_json: JSON.stringify(event) })
    .execute();
}

function eventOf(json: string): ActionEvent | null {
  try {
    return actionEventSchema.parse(JSON.parse(json));
  } catch {
    return null;
  }
}
