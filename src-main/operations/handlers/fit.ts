import { reportOnFit } from '../../../src-core/fit/index.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

export const fitMaterials: Handler<'fit:materials'> = ({ knowledge }, question) => {
  const { application, filler, failedPart } = question;
  const kindOf = (id: string) => knowledge.materials.get(id)?.kind;
  for (const polymer of [application.standsInFor, failedPart?.polymer ?? null])
    if (polymer !== null && kindOf(polymer) !== 'polymer')
      throw new DomainError('bad-request', `the guide has no polymer "${polymer}"; pick one of its list`);
  for (const mixedIn of [filler, failedPart?.filler ?? 'none'])
    if (mixedIn !== 'none' && kindOf(mixedIn) !== 'filler')
      throw new DomainError(
        'bad-request',
        `the guide has no filler "${mixedIn}"; pick one of its list, or "none"`,
      );
  return reportOnFit(knowledge, question);
};
