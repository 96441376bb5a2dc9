import { reportOnFlow } from '../../../src-core/flow/index.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

export const flowSheetCall: Handler<'flow:sheet'> = ({ knowledge }, question) => {
  const { polymer } = question;
  if (polymer !== null && knowledge.materials.get(polymer)?.kind !== 'polymer')
    throw new DomainError('bad-request', refusals.noSuchPolymer({ id: polymer }));
  return reportOnFlow(knowledge, question);
};
