import type { Guide } from '../../../src-core/contract/guide-view.ts';
import type { Handler } from '../dispatcher.ts';

export const guideRead: Handler<'guide:read'> = ({ knowledge }): Guide => ({
  version: knowledge.version,
  conditions: [...knowledge.conditions.values()],
  materials: [...knowledge.materials.values()],
  cautions: [...knowledge.cautions.values()],
  practices: [...knowledge.practices.values()],
  mechanisms: [...knowledge.mechanisms.values()],
  observations: [...knowledge.observations.values()],
  facetTables: [...knowledge.facetTables.values()],
  causes: [...knowledge.causes.values()],
  remedies: [...knowledge.remedies.values()],
  places: [...knowledge.places.values()],
  spoolBodies: [...knowledge.spoolBodies.values()],
  barriers: [...knowledge.barriers.values()],
  words: knowledge.words,
});

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
  casebookFile: casebook.file,
});
