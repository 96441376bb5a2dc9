import type { Knowledge } from '../../knowledge/knowledge.ts';
import { computeStorage } from '../../moisture/index.ts';
import type { Random } from '../seeded-random.ts';
import { materialLabelOf } from './material-label.ts';
import { pickOne, type SetDrill } from './drill-question.ts';

const POLYMERS = ['petg', 'pa6', 'pa12', 'pc', 'tpu'] as const;
const AREAS_M2 = [0.15, 0.3, 0.5] as const;
const MONTHS = [1, 3, 6, 12] as const;
const GRAMS = [10, 20, 50, 100, 200, 500, 1000, 2000] as const;
const NOW_MS = Date.UTC(2026, 0, 15, 12);

/** A tub or bag, a spool and some months: how much silica gel goes in, by the storage sums. */
export function storageDrill(knowledge: Knowledge, random: Random): SetDrill | null {
  const polymer = pickOne(
    POLYMERS.filter((id) => knowledge.water.has(id)),
    random,
  );
  const barrier = pickOne([...knowledge.barriers.values()], random);
  const areaM2 = pickOne(AREAS_M2, random);
  const months = pickOne(MONTHS, random);
  const ask = (desiccantG: number) =>
    computeStorage(
      knowledge,
      {
        polymer,
        filler: 'none',
        fillerPercent: null,
        filamentDiameterMm: 1.75,
        filamentGrams: 1000,
        openedAt: null,
        storage: null,
      },
      [],
      { kind: 'measured', temperatureC: 22, percentRh: 50 },
      { barrier: barrier.id, areaM2, airLitre: 8, months, desiccantG },
      NOW_MS,
    );
  const { silicaGrams, leakGramsPerMonth, regenerate } = ask(0);
  const right = GRAMS.find((grams) => grams >= silicaGrams);
  if (right === undefined || silicaGrams < 2) return null;
  return {
    task: `A dry spool is put away for ${months === 1 ? 'a month' : `${months} months`}. How much fresh silica gel goes in, so that the air stays below 20 %?`,
    facts: [
      { label: 'Filament', value: `1 kg of ${materialLabelOf(knowledge, polymer)}` },
      { label: 'Wall', value: barrier.label },
      { label: 'Area of the walls', value: `${areaM2} m²` },
      { label: 'Room', value: '22 °C, 50 % humidity' },
    ],
    questions: [
      {
        id: 'grams',
        label: 'Silica gel',
        choices: GRAMS.map((grams) => ({ id: String(grams), label: `${grams} g` })),
        right: () => [String(right)],
        why: () =>
          `About ${leakGramsPerMonth.toPrecision(2)} g of water a month come through this wall, which takes ${silicaGrams} g of gel; ${right} g is the next amount. ${regenerate}`.trim(),
      },
    ],
  };
}
