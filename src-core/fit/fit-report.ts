import { cautionsOf } from '../knowledge/cautions.ts';
import type { Application, FitQuestion, FitReport } from '../contract/material-fit.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { explainFailedPart } from './failed-part.ts';
import { factsOfMaterial } from './filled-facts.ts';
import { judgeMaterial } from './judge-material.ts';
import { factsOfPolymer, type FactsGuide } from './material-facts.ts';
import { rankMaterials } from './rank-materials.ts';

type Guide = FactsGuide & Pick<Knowledge, 'conditions' | 'causes' | 'cautions' | 'serviceHeat'>;

/**
 * Which materials suit an application, and why not: every polymer of the guide with the filler asked for, best first.
 * With `failedPart` also what the same rules say about the part that failed. Throws for a material that the guide lacks.
 */
export function reportOnFit(knowledge: Guide, { application, filler, failedPart }: FitQuestion): FitReport {
  const original =
    application.standsInFor === null ? null : factsOfPolymer(knowledge, application.standsInFor);
  const judge = (polymer: string, mixedIn: string) =>
    judgeMaterial(factsOfMaterial(knowledge, polymer, mixedIn), application, original, knowledge.serviceHeat);
  const polymers = [...knowledge.materials.values()].filter(({ kind }) => kind === 'polymer');
  return {
    materials: [...rankMaterials(polymers.map(({ id }) => judge(id, filler)))],
    cautions: cautionsOf(knowledge, cautionIds(application)),
    failedPart:
      failedPart && explainFailedPart(knowledge, judge(failedPart.polymer, failedPart.filler), application),
  };
}

/** What can hurt somebody in this use. */
function cautionIds({ contact, steadyLoad, impact }: Application): readonly string[] {
  return [
    ...(contact === 'food' ? ['food-contact'] : contact === 'skin' ? ['skin-contact'] : []),
    ...(steadyLoad === 'heavy' || impact === 'blows' ? ['part-may-fail'] : []),
  ];
}
