import { concludedBy } from '../../../src-core/session/case-conclusion.ts';
import { thenAndNow } from '../../../src-core/session/then-and-now.ts';
import { readConclusion } from '../../casebook/case-conclusion.repository.ts';
import { readGuide } from '../../casebook/guide.repository.ts';
import { loadCase } from '../case-reader.ts';
import type { Handler } from '../dispatcher.ts';

/** What a case concluded when its newest entry was made, beside what it would conclude under today's guide. */
export const caseThenAndNow: Handler<'case:then-and-now'> = async (program, { caseId }) => {
  const { db } = program.casebook;
  const { log, record, step, under } = await loadCase(program, caseId);
  const kept = await readConclusion(db, {
    caseId,
    revision: log.length,
    knowledgeVersion: record.knowledge_version,
    engineVersion: record.engine_version,
  });
  const isOtherGuide = record.knowledge_version !== under.knowledgeVersion;
  const files = isOtherGuide ? await readGuide(db, record.knowledge_version) : null;
  const earlier =
    files &&
    (await program.reasoner.run(
      'under-earlier-guide',
      { version: record.knowledge_version, files },
      log,
      { costs: under.costs, spool: null },
      kept,
      step,
    ));
  return thenAndNow(program.knowledge, {
    now: concludedBy(step),
    kept,
    earlier,
    isOtherGuide,
    isOtherEngine: record.engine_version !== under.engineVersion,
  });
};
