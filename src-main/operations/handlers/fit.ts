import { reportOnFit } from '../../../src-core/fit/index.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

export const fitMaterials: Handler<'fit:materials'> = ({ knowledge }, question) => {
  const { application, filler, failedPart } = question;
  const kindOf = (id: string) => knowledge.materials.get(id)?.kind;
  for (const polymer of [application.standsInFor, failedPart?.polymer ?? null])
    if (polymer !== null && kindOf(polymer) !== 'polymer')
      throw new DomainError('bad-request', refusals.noSuchPolymer({ id: polymer }));
  for (const mixedIn of [filler, failedPart?.filler ?? 'none'])
    if (mixedIn !== 'none' && kindOf(mixedIn) !== 'filler')
      throw new DomainError('bad-request', refusals.noSuchFiller({ id: mixedIn }));
  return reportOnFit(knowledge, question);
};
