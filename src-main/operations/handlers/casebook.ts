import type { Ranking } from '../../../src-core/session/case-step.ts';
import { undoneSeqs, type LoggedEvent } from '../../../src-core/session/logged-event.ts';
import { eventWords } from '../../../src-core/session/event-words.ts';
import { causeLabel } from '../../../src-core/session/wording.ts';
import { inOtherWords } from '../../../src-core/words/in-other-words.ts';
import { createWordBook, type WordBook } from '../../../src-core/words/word-book.ts';
import type { Knowledge } from '../../../src-core/knowledge/knowledge.ts';
import { listCases, listLedTo, listProfiles, listTags } from '../../casebook/case-list.repository.ts';
import { readRankings, writeRankings, type MadeUnder } from '../../casebook/case-step.repository.ts';
import type { Handler } from '../dispatcher.ts';
import { loadCase, placesOf } from '../case-reader.ts';
import type { ApplicationContext } from '../application-context.ts';

const TIMELINE_CANDIDATES = 6;

/** The words of the trade, made ready once a guide: a search comes with every letter typed. */
const wordBooks = new WeakMap<Knowledge, WordBook>();
function wordBookOf(knowledge: Knowledge): WordBook {
  const book = wordBooks.get(knowledge) ?? createWordBook(knowledge.words);
  wordBooks.set(knowledge, book);
  return book;
}

/** More names than these nobody looks through. */
const MOST_PROFILES = 200;

export const caseProfiles: Handler<'case:profiles'> = async ({ casebook }) => ({
  profiles: await listProfiles(casebook.db, MOST_PROFILES),
});

export const caseTags: Handler<'case:tags'> = async ({ casebook }) => ({
  tags: await listTags(casebook.db),
});

export const caseList: Handler<'case:list'> = ({ casebook, knowledge }, filter) =>
  listCases(casebook.db, filter, inOtherWords(filter.search, wordBookOf(knowledge)));

/** What was thought after each entry, as it was kept; worked out again, once, where it was kept under another guide. */
export const caseTimeline: Handler<'case:timeline'> = async (program, { caseId }) => {
  const { knowledge } = program;
  const { log, record, step, under } = await loadCase(program, caseId);
  const undone = undoneSeqs(log);
  const rankings = await rankingsUnder(program, caseId, log, under);
  return {
    caseId,
    number: record.number,
    revision: log.length,
    ...placesOf(record),
    tags: [...step.moment.context.tags],
    links: {
      mergedInto: step.moment.context.mergedInto,
      merged: [...step.moment.context.merged],
      cameFrom: step.moment.context.cameFrom,
      ledTo: await listLedTo(program.casebook.db, caseId),
    },
    isSameKnowledge:
      record.knowledge_version === under.knowledgeVersion && record.engine_version === under.engineVersion,
    steps: log
      .filter(({ event }) => event.kind !== 'step-ticked')
      .map(({ seq, at, event, by, setAside }) => ({
        seq,
        at,
        kind: event.kind,
        text: setAside ?? eventWords(knowledge, event),
        isUndone: undone.has(seq),
        by: by ?? null,
        photo: event.kind === 'photographed' ? event.photo : null,
        candidates: (rankings.get(seq) ?? []).slice(0, TIMELINE_CANDIDATES).map(([cause, probability]) => ({
          cause,
          label: causeLabel(knowledge, cause),
          probability,
        })),
      })),
    refusedSeq: step.noPlaceFor[0]?.seq ?? null,
  };
};

async function rankingsUnder(
  program: ApplicationContext,
  caseId: string,
  log: readonly LoggedEvent[],
  under: MadeUnder,
): Promise<ReadonlyMap<number, Ranking>> {
  const { db } = program.casebook;
  const kept = await readRankings(db, caseId, under);
  if (log.every(({ seq }) => kept.has(seq))) return kept;
  const made = await program.reasoner.run('rankings', log);
  try {
    await db.transaction().execute((trx) => writeRankings(trx, caseId, made, under));
  } catch {
    // A full disk or a casebook that may not be written: shown all the same, and worked out again next time.
  }
  return new Map(made.map(({ seq, ranking }) => [seq, ranking]));
}
