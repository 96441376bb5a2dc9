import type { KnowledgeFile } from '../../src-core/knowledge/schema.ts';
import type { CaseStep } from '../../src-core/session/case-step.ts';
import type { LoggedEvent } from '../../src-core/session/logged-event.ts';
import { keepConclusion } from './case-conclusion.repository.ts';
import { writeRankings, writeStep, type MadeUnder } from './case-step.repository.ts';
import { appendUnlessOvertaken } from './append-unless-overtaken.ts';
import type { CasebookDb } from './casebook.ts';
import { keepGuide } from './guide.repository.ts';
import { readStoredEvent } from './stored-event.ts';
import type { CaseRecord, NewCaseRecord } from './tables.ts';

/** SQLite takes some 32,000 values in one statement. */
const ROWS_AT_ONCE = 1000;

/** The log of one case in order; empty when there is no such case. What cannot be read in it is set aside as a note. */
export async function readLog(db: CasebookDb, caseId: string): Promise<LoggedEvent[]> {
  const rows = await db
    .selectFrom('case_events')
    .selectAll()
    .where('case_id', '=', caseId)
    .orderBy('seq')
    .execute();
  return rows.map((row) => readStoredEvent(row).logged);
}

export async function readCase(db: CasebookDb, caseId: string): Promise<CaseRecord | undefined> {
  return db.selectFrom('cases').selectAll().where('id', '=', caseId).executeTakeFirst();
}

/** A case's row with what its printer and spool are called today. */
export async function readLabelledCase(db: CasebookDb, caseId: string): Promise<LabelledCase | undefined> {
  return db
    .selectFrom('cases')
    .leftJoin('printers', 'printers.id', 'cases.printer_id')
    .leftJoin('spools', 'spools.id', 'cases.spool_id')
    .selectAll('cases')
    .select(['printers.label as printer_label', 'spools.label as spool_label'])
    .where('cases.id', '=', caseId)
    .executeTakeFirst();
}

export interface LabelledCase extends CaseRecord {
  readonly printer_label: string | null;
  readonly spool_label: string | null;
}

export interface CaseCause {
  readonly cause: string;
  readonly label: string;
  readonly isNamedByHand: boolean;
}

/** What an append writes: the event, what the case adds up to with it, and the row that lists show. */
export interface CaseAppend {
  readonly logged: LoggedEvent;
  readonly record: Omit<NewCaseRecord, 'number'>;
  readonly causes: readonly CaseCause[];
  readonly step: CaseStep;
  readonly under: MadeUnder;
  /** Parsed files of the guide, kept with its first entry. */
  readonly guideFiles: (() => readonly KnowledgeFile[]) | null;
}

/**
 * Appends one event and everything that follows from it in one transaction.
 * Answers "stale" when the case has moved on since the caller read it (its next number is taken).
 */
export async function appendEvent(
  db: CasebookDb,
  append: CaseAppend,
): Promise<'stale' | { readonly number: number }> {
  const appended = await appendUnlessOvertaken(db, {
    revision: append.logged.seq - 1,
    standsAt: (trx) => lastSeq(trx, append.record.id),
    write: (trx) => writeAppend(trx, append),
  });
  return appended === 'stale' ? 'stale' : appended.written;
}

/** Appends an event to each of two cases, or to none: "stale" when either has moved on. */
export async function appendToBoth(
  db: CasebookDb,
  [one, other]: readonly [CaseAppend, CaseAppend],
): Promise<'stale' | 'written'> {
  const appended = await appendUnlessOvertaken(db, {
    revision: one.logged.seq - 1,
    // Both are looked at before anything is written.
    standsAt: async (trx) =>
      (await lastSeq(trx, other.record.id)) === other.logged.seq - 1 ? lastSeq(trx, one.record.id) : -1,
    write: async (trx) => {
      await writeAppend(trx, one);
      await writeAppend(trx, other);
    },
  });
  return appended === 'stale' ? 'stale' : 'written';
}

async function writeAppend(
  trx: CasebookDb,
  { logged, record, causes, step, under, guideFiles }: CaseAppend,
): Promise<{ readonly number: number }> {
  const number = await writeProjection(trx, record, causes);
  await trx
    .insertInto('case_events')
    .values({
      case_id: record.id,
      seq: logged.seq,
      at: logged.at,
      event_json: JSON.stringify(logged.event),
      knowledge_version: record.knowledge_version,
      engine_version: record.engine_version,
      by_initials: logged.by ?? null,
    })
    .execute();
  await writeStep(trx, record.id, step, under);
  await writeRankings(trx, record.id, [{ seq: logged.seq, ranking: step.ranking }], under);
  await keepGuide(trx, under.knowledgeVersion, logged.at, guideFiles);
  return { number };
}

/** Number of a case's newest event; 0 where there is no such case. */
async function lastSeq(db: CasebookDb, caseId: string): Promise<number> {
  const last = await db
    .selectFrom('case_events')
    .select(({ fn }) => fn.max('seq').as('seq'))
    .where('case_id', '=', caseId)
    .executeTakeFirst();
  return Number(last?.seq ?? 0);
}

/**
 * Keeps what a case adds up to where it had to be worked out again, with the row that follows from it; unless the case has
 * moved on meanwhile.
 */
export async function keepRebuilt(
  db: CasebookDb,
  { record, causes, step, under }: Pick<CaseAppend, 'record' | 'causes' | 'step' | 'under'>,
): Promise<void> {
  await db.transaction().execute(async (trx) => {
    const now = await trx
      .selectFrom('cases')
      .select('revision')
      .where('id', '=', record.id)
      .executeTakeFirst();
    if (now?.revision !== step.revision) return;
    await keepConclusion(trx, {
      caseId: record.id,
      revision: step.revision,
      knowledgeVersion: record.knowledge_version,
      engineVersion: record.engine_version,
    });
    await writeProjection(trx, record, causes);
    await writeStep(trx, record.id, step, under);
  });
}

/**
 * Writes a whole case that came from elsewhere; the caller has checked its log, and holds the transaction. Events that
 * could not be read where they came from are kept as they were (`unreadable`, by number).
 */
export async function insertCase(
  trx: CasebookDb,
  log: readonly LoggedEvent[],
  record: Omit<NewCaseRecord, 'number'>,
  causes: readonly CaseCause[],
  unreadable: ReadonlyMap<number, string> = new Map(),
): Promise<void> {
  await writeProjection(trx, record, causes);
  for (let from = 0; from < log.length; from += ROWS_AT_ONCE) {
    await trx
      .insertInto('case_events')
      .values(
        log.slice(from, from + ROWS_AT_ONCE).map(({ seq, at, event, by }) => ({
          case_id: record.id,
          seq,
          at,
          by_initials: by ?? null,
          event_json: unreadable.get(seq) ?? JSON.stringify(event),
          knowledge_version: record.knowledge_version,
          engine_version: record.engine_version,
        })),
      )
      .execute();
  }
}

/** Writes the row that lists show for a case that is there; within the caller's transaction. */
export async function updateProjection(
  trx: CasebookDb,
  record: Omit<NewCaseRecord, 'number'>,
  causes: readonly CaseCause[],
): Promise<void> {
  await writeProjection(trx, record, causes);
}

async function writeProjection(
  trx: CasebookDb,
  record: Omit<NewCaseRecord, 'number'>,
  causes: readonly CaseCause[],
): Promise<number> {
  const known = await trx.selectFrom('cases').select('number').where('id', '=', record.id).executeTakeFirst();
  let number = known?.number ?? 0;
  if (known) {
    await trx.updateTable('cases').set(record).where('id', '=', record.id).execute();
  } else {
    const highest = await trx
      .selectFrom('cases')
      .select(({ fn }) => fn.max('number').as('number'))
      .executeTakeFirst();
    // A case in the bin may come back under its number.
    const binned = await trx
      .selectFrom('binned_cases')
      .select(({ fn }) => fn.max('number').as('number'))
      .executeTakeFirst();
    number = Math.max(Number(highest?.number ?? 0), Number(binned?.number ?? 0)) + 1;
    await trx
      .insertInto('cases')
      .values({ ...record, number })
      .execute();
  }
  await trx.deleteFrom('case_causes').where('case_id', '=', record.id).execute();
  if (causes.length === 0) return number;
  await trx
    .insertInto('case_causes')
    .values(
      causes.map((cause, position) => ({
        case_id: record.id,
        position,
        cause: cause.cause,
        label: cause.label,
        is_named_by_hand: cause.isNamedByHand ? 1 : 0,
      })),
    )
    .execute();
  return number;
}
