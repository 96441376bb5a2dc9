import { createGuideBook, type GuideBook } from '../../src-renderer/host/guide-book.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

/** The shipped guide as screens get it. */
export function shippedGuideBook(): GuideBook {
  const knowledge = shippedKnowledge();
  return createGuideBook({
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
    makeSafe: knowledge.makeSafe,
    words: knowledge.words,
  });
}
