import { smallestBoreMm } from '../../flow/melt.ts';
import type { Knowledge } from '../../knowledge/knowledge.ts';
import { drillTexts } from '../../words/en/drills.ts';
import { inSentence } from '../../words/in-sentence.ts';
import { fixed } from '../../words/message.ts';
import type { Random } from '../seeded-random.ts';
import { materialLabelOf } from './material-label.ts';
import { pickOne, type SetDrill } from './drill-question.ts';

const { m } = drillTexts;

const FILLERS = ['carbon-fibre', 'glass-fibre', 'glow-pigment', 'wood', 'metal-powder'] as const;
const PARTICLES_MM = [0.05, 0.08, 0.12, 0.16] as const;
const SHARES = [10, 15, 20, 30] as const;

/** A filled filament from its data sheet: the smallest bore that will not bridge, and whether brass will do. */
export function nozzleDrill(knowledge: Knowledge, random: Random): SetDrill | null {
  const filler = pickOne(FILLERS, random);
  const particle = pickOne(PARTICLES_MM, random);
  const percent = pickOne(SHARES, random);
  const bores = knowledge.melting.boresMm.values.toSorted((a, b) => a - b);
  const smallest = smallestBoreMm(knowledge.melting.bridging, particle, percent / 100);
  const right = bores.find((bore) => bore >= smallest);
  const wear = knowledge.materials.get(filler)?.properties.abrasiveness?.value;
  if (right === undefined || typeof wear !== 'string') return null;
  // "High" wears brass within days; what is moderate or lower leaves a choice and is not asked.
  const isHard = wear.startsWith('high');
  const label = materialLabelOf(knowledge, filler);
  return {
    task: m.nozzleTask(),
    facts: [
      { label: m.filler(), value: label },
      { label: m.longestParticles(), value: m.millimetres({ millimetres: particle }) },
      { label: m.shareByWeight(), value: m.percent({ percent }) },
    ],
    questions: [
      {
        id: 'bore',
        label: m.nozzleSize(),
        choices: bores.map((bore) => ({ id: String(bore), label: m.millimetres({ millimetres: bore }) })),
        right: () => [String(right)],
        why: () => m.boreAtLeast({ smallestMm: fixed(smallest, 2), boreMm: right }),
      },
      ...(isHard
        ? [
            {
              id: 'metal',
              label: m.nozzleMaterial(),
              choices: [
                { id: 'brass', label: m.brass() },
                { id: 'stainless-steel', label: m.stainlessSteel() },
                { id: 'hardened-steel', label: m.hardenedSteel() },
              ],
              right: () => ['hardened-steel'],
              why: () => m.wearBy({ filler: inSentence(label), wear }),
            },
          ]
        : []),
    ],
  };
}
