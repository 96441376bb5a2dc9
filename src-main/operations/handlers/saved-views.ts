import { refusals } from '../../../src-core/words/en/refusals.ts';
import { appendUnlessOvertaken } from '../../casebook/append-unless-overtaken.ts';
import { readSavedViews, saveSetting } from '../../casebook/shop-setting.repository.ts';
import type { ApplicationContext } from '../application-context.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

export const caseViews: Handler<'case:views'> = (program) => readViews(program);

export const caseSaveViews: Handler<'case:save-views'> = async (program, { views, revision }) => {
  const saved = await appendUnlessOvertaken(program.casebook.db, {
    revision,
    standsAt: async (trx) => (await readSavedViews(trx)).revision,
    write: (trx) => saveSetting(trx, 'case-views', views),
  });
  if (saved === 'stale') throw new DomainError('stale', refusals.viewsMovedOn(), await readViews(program));
  return readViews(program);
};

async function readViews({ casebook: { db } }: ApplicationContext) {
  const { value, revision } = await readSavedViews(db);
  return { views: value, revision };
}
