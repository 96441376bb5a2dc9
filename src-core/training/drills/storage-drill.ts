import type { Knowledge } from '../../knowledge/knowledge.ts';
import { computeStorage } from '../../moisture/index.ts';
import { drillTexts } from '../../words/en/drills.ts';
import { celsius, twoFigures } from '../../words/message.ts';
import type { Random } from '../seeded-random.ts';
import { materialLabelOf } from './material-label.ts';
import { pickOne, type SetDrill } from './drill-question.ts';

const { m } = drillTexts;

const POLYMERS = ['petg', 'pa6', 'pa12', 'pc', 'tpu'] as const;
const AREAS_M2 = [0.15, 0.3, 0.5] as const;
const MONTHS = [1, 3, 6, 12] as const;
const GRAMS = [10, 20, 50, 100, 200, 500, 1000, 2000] as const;
const ROOM = { temperatureC: 22, percentRh: 50 } as const;
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
      { kind: 'measured', ...ROOM },
      { barrier: barrier.id, areaM2, airLitre: 8, months, desiccantG },
      NOW_MS,
    );
  const { silicaGrams, leakGramsPerMonth, regenerate } = ask(0);
  const right = GRAMS.find((grams) => grams >= silicaGrams);
  if (right === undefined || silicaGrams < 2) return null;
  const needed = { leakGrams: twoFigures(leakGramsPerMonth), silicaGrams, grams: right };
  return {
    task: m.storageTask({ count: months }),
    facts: [
      { label: m.filament(), value: m.kilogramOf({ material: materialLabelOf(knowledge, polymer) }) },
      { label: m.wall(), value: barrier.label },
      { label: m.areaOfWalls(), value: m.squareMetres({ area: areaM2 }) },
      {
        label: m.room(),
        value: m.roomAir({ temperature: celsius(ROOM.temperatureC), percent: ROOM.percentRh }),
      },
    ],
    questions: [
      {
        id: 'grams',
        label: m.silicaGel(),
        choices: GRAMS.map((grams) => ({ id: String(grams), label: m.grams({ grams }) })),
        right: () => [String(right)],
        why: () =>
          regenerate === '' ? m.silicaNeeded(needed) : m.silicaNeededRegenerate({ ...needed, regenerate }),
      },
    ],
  };
}
