import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

export const trainingView: Handler<'training:view'> = ({ knowledge, reasoner }, run) => {
  const families = new Set([...knowledge.causes.values()].map(({ family }): string => family));
  if (run.family !== null && !families.has(run.family))
    throw new DomainError(
      'not-found',
      `the guide has no family of causes "${run.family}"; it has ${[...families].join(', ')}`,
    );
  return reasoner.run('training-view', run);
};
