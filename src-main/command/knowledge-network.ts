import { expandGates, writeXmlbif } from '../../src-core/inference/index.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';

/** The guide's network under given conditions as XMLBIF 0.3, levels named as in the guide. */
export function networkXml(
  knowledge: Knowledge,
  conditions: Readonly<Record<string, string | number>>,
): string {
  const { graph } = knowledge;
  const levelsOf = (observation: number) => knowledge.levelsOf(graph.observations[observation]?.id ?? '');
  const { priors } = knowledge.priorsUnder(conditions);
  return writeXmlbif(expandGates(graph, priors, levelsOf, `beadwright-guide-${knowledge.version}`));
}
