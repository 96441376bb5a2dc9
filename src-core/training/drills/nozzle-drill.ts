import { smallestBoreMm } from '../../flow/melt.ts';
import type { Knowledge } from '../../knowledge/knowledge.ts';
import type { Random } from '../seeded-random.ts';
import { materialLabelOf } from './material-label.ts';
import { pickOne, type SetDrill } from './drill-question.ts';

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
    task: 'A new spool. Pick the finest nozzle that it should still run through.',
    facts: [
      { label: 'Filler', value: label },
      { label: 'Longest particles', value: `${particle} mm` },
      { label: 'Share by weight', value: `${percent} %` },
    ],
    questions: [
      {
        id: 'bore',
        label: 'Nozzle size',
        choices: bores.map((bore) => ({ id: String(bore), label: `${bore} mm` })),
        right: () => [String(right)],
        why: () =>
          `Grains this long want a bore of at least ${smallest.toFixed(2)} mm at this share; the next size is ${right} mm. A warning more than a figure.`,
      },
      ...(isHard
        ? [
            {
              id: 'metal',
              label: 'Nozzle material',
              choices: [
                { id: 'brass', label: 'Brass' },
                { id: 'stainless-steel', label: 'Stainless steel' },
                { id: 'hardened-steel', label: 'Hardened steel' },
              ],
              right: () => ['hardened-steel'],
              why: () => `Wear by ${label.toLowerCase()}: ${wear}.`,
            },
          ]
        : []),
    ],
  };
}
