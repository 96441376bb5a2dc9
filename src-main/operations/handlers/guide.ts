import { statementsByFit, weightsOfComplaints } from '../../../src-core/differential/fitting-statements.ts';
import { lookalikesOf } from '../../../src-core/differential/lookalikes.ts';
import { weightsOf } from '../../../src-core/differential/observation-weights.ts';
import { showingsOf } from '../../../src-core/differential/showings.ts';
import { guideView } from '../../../src-core/knowledge/guide-view.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

export const guideRead: Handler<'guide:read'> = ({ knowledge }) => guideView(knowledge);

export const guideCause: Handler<'guide:cause'> = ({ knowledge }, { cause: id }) => {
  const cause = knowledge.causes.get(id);
  if (!cause) throw new DomainError('not-found', refusals.noSuchCause({ id }));
  return { showings: [...showingsOf(cause, knowledge)], rivals: [...lookalikesOf(knowledge, id)] };
};

export const guideObservation: Handler<'guide:observation'> = ({ knowledge }, { observation }) => {
  if (!knowledge.observations.has(observation))
    throw new DomainError('not-found', refusals.noSuchObservation({ id: observation }));
  return [...weightsOf(knowledge, observation)];
};

export const guideStatements: Handler<'guide:statements'> = ({ knowledge }, question) => [
  ...statementsByFit(
    knowledge,
    'complaints' in question
      ? weightsOfComplaints(knowledge, question.complaints)
      : new Map(Object.entries(question.causes)),
  ),
];

export const hostInfo: Handler<'host:info'> = ({
  host,
  programVersion,
  engineVersion,
  knowledge,
  casebook,
}) => ({
  host,
  programVersion,
  engineVersion,
  knowledgeVersion: knowledge.version,
  casebookFile: casebook.place,
});
