import type { Knowledge } from '../../knowledge/knowledge.ts';
import type { Random } from '../seeded-random.ts';
import { pickOne, shuffled, type SetDrill } from './drill-question.ts';

const ASKED = [
  { property: 'nozzleTempC', label: 'Nozzle', stepC: 35 },
  { property: 'plateTempC', label: 'Bed', stepC: 30 },
  { property: 'dryingTempC', label: 'Drying', stepC: 25 },
] as const;
const OFFERED = 4;

/** A material sheet and four values for each of three settings: only one lies within the sheet's range. */
export function sheetDrill(knowledge: Knowledge, random: Random): SetDrill | null {
  const polymer = pickOne(
    [...knowledge.materials.values()].filter(
      ({ kind, properties }) =>
        kind === 'polymer' &&
        ASKED.every(({ property }) => {
          const one = properties[property];
          return one?.low !== undefined && one.high !== undefined;
        }),
    ),
    random,
  );
  const shown = Object.entries(polymer.properties).flatMap(([property, one]) => {
    const label = ASKED.find((asked) => asked.property === property)?.label;
    if (!label || one.low === undefined || one.high === undefined) return [];
    return [{ label: `${label} temperature`, value: `${one.low} to ${one.high} ${one.unit ?? ''}`.trim() }];
  });
  return {
    task: `The sheet of ${polymer.label}. Somebody has set these; which settings fit the sheet?`,
    facts: [
      ...shown,
      ...['difficulty', 'storage', 'surface'].flatMap((property) => {
        const one = polymer.properties[property as 'difficulty'];
        return typeof one?.value === 'string'
          ? [{ label: SAID[property] ?? property, value: one.value }]
          : [];
      }),
    ],
    questions: ASKED.flatMap(({ property, label, stepC }) => {
      const { low, high } = polymer.properties[property] ?? {};
      if (low === undefined || high === undefined) return [];
      const right = Math.round((low + random() * (high - low)) / 5) * 5;
      const inside = Math.min(high, Math.max(low, right));
      const wrong = [low - stepC, high + stepC, high + 2 * stepC, low - 2 * stepC].filter((one) => one >= 20);
      const choices = shuffled([inside, ...shuffled(wrong, random).slice(0, OFFERED - 1)], random);
      return [
        {
          id: property,
          label,
          choices: choices.map((one) => ({ id: String(one), label: `${one} °C` })),
          right: () => [String(inside)],
          why: () => `The sheet says ${low} to ${high} °C.`,
        },
      ];
    }),
  };
}

const SAID: Readonly<Record<string, string>> = {
  difficulty: 'To print',
  storage: 'Storage',
  surface: 'Build plate',
};
