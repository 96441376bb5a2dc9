import type { KnowledgeFault } from './fault.ts';
import type { PlacedLists } from './placed-lists.ts';
import type { Hazard } from './schema.ts';

/** Words that give a hazard away; a remedy that uses one must declare the hazard or word the step otherwise. */
const HAZARD_WORDS: readonly { readonly hazard: Hazard; readonly words: RegExp }[] = [
  { hazard: 'heat', words: /\b(oven|hot end|heat (it|the|up)|heated|dryer|while hot|at temperature|preheat)\b/i },
  { hazard: 'solvent', words: /\b(acetone|isopropyl|alcohol|solvent)\b/i },
  { hazard: 'fibre-dust', words: /\b(sand|grind|drill|file) .{0,40}\bfib(re|er)/i },
  { hazard: 'mains', words: /\b(mains|power supply unit|line voltage)\b/i },
];

/** Every declared hazard needs a caution that covers it, on a step or at the check; every hazard word needs its declaration. */
export function checkHazards(lists: PlacedLists): KnowledgeFault[] {
  const faults: KnowledgeFault[] = [];
  const covers = new Map(lists.cautions.map(({ entry }) => [entry.id, entry.hazards]));
  const hazardsOf = (ids: readonly string[]) => new Set(ids.flatMap((id) => covers.get(id) ?? []));
  for (const { entry: remedy, at } of lists.remedies) {
    const covered = hazardsOf(remedy.steps.flatMap((step) => step.cautions));
    for (const hazard of remedy.involves) {
      if (covered.has(hazard)) continue;
      faults.push({
        code: 'missing-caution',
        ...at('involves'),
        message: `remedy "${remedy.id}" involves ${hazard} and no step carries a caution for it`,
        remedy: `put a caution with hazard ${hazard} on the step where it matters`,
      });
    }
    remedy.steps.forEach((step, i) => {
      for (const { hazard, words } of HAZARD_WORDS) {
        const word = words.exec(step.do)?.[0];
        if (!word || remedy.involves.includes(hazard)) continue;
        faults.push({
          code: 'undeclared-hazard',
          ...at('steps', i, 'do'),
          message: `a step of remedy "${remedy.id}" says "${word}"`,
          remedy: `list ${hazard} under "involves" and give the step its caution`,
        });
      }
    });
  }
  for (const { entry: observation, at } of lists.observations) {
    const needsHeatCaution = observation.check.machine === 'hot' && !hazardsOf(observation.check.cautions).has('heat');
    if (!needsHeatCaution) continue;
    faults.push({
      code: 'missing-caution',
      ...at('check', 'machine'),
      message: `the check of "${observation.id}" needs a hot machine and carries no caution for heat`,
      remedy: 'add a caution with hazard heat under "cautions"',
    });
  }
  return faults;
}
