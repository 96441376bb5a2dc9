import type { Guide } from '../contract/guide-view.ts';
import { usualFlowMm3PerS } from '../flow/usual-flow.ts';
import type { Knowledge } from './knowledge.ts';

/** The guide as screens read it. */
export function guideView(knowledge: Knowledge): Guide {
  const { melting } = knowledge;
  return {
    version: knowledge.version,
    conditions: [...knowledge.conditions.values()],
    materials: [...knowledge.materials.values()],
    cautions: [...knowledge.cautions.values()],
    practices: [...knowledge.practices.values()],
    mechanisms: [...knowledge.mechanisms.values()],
    observations: [...knowledge.observations.values()],
    causes: [...knowledge.causes.values()],
    remedies: [...knowledge.remedies.values()],
    places: [...knowledge.places.values()],
    maintenanceTasks: [...knowledge.maintenanceTasks.values()],
    spoolBodies: [...knowledge.spoolBodies.values()],
    barriers: [...knowledge.barriers.values()],
    nozzles: melting.boresMm.values.map((boreMm) => ({
      boreMm,
      usualFlowMm3PerS: usualFlowMm3PerS(melting, boreMm),
    })),
    makeSafe: knowledge.makeSafe,
    words: knowledge.words,
  };
}
