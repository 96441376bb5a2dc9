import { CONDITION } from '../contract/relied-on-conditions.ts';
import { fillFigures, type WorkedOut } from '../words/guide-figures.ts';
import type { Words } from '../words/message.ts';
import type { Conditions } from '../knowledge/conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';

/** A text of the guide with this case's numbers in the places of its {placeholders}. */
export function fillText(
  text: string,
  knowledge: Knowledge,
  conditions: Conditions,
  workedOut: WorkedOut = {},
): Words {
  const materialOf = (id: string | number | undefined) =>
    typeof id === 'string' ? knowledge.materials.get(id) : undefined;
  const nozzle = conditions[CONDITION.nozzleMm];
  return fillFigures(text, {
    polymer: materialOf(conditions[CONDITION.polymer]),
    filler: materialOf(conditions[CONDITION.filler]),
    nozzleMm: typeof nozzle === 'number' ? nozzle : undefined,
    // Most spools are plastic: the figures keep to that until the spool's own are worked out.
    spoolBody: knowledge.spoolBodies.get('plastic'),
    workedOut,
  });
}
