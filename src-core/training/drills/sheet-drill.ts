import type { Knowledge } from '../../knowledge/knowledge.ts';
import { drillTexts } from '../../words/en/drills.ts';
import { valueTexts } from '../../words/en/values.ts';
import { celsius, celsiusFromTo, decimalsOf } from '../../words/message.ts';
import type { Random } from '../seeded-random.ts';
import { pickOne, shuffled, type SetDrill } from './drill-question.ts';

const { m } = drillTexts;

const ASKED = [
  { property: 'nozzleTempC', label: m.nozzle(), said: m.nozzleTemperature(), stepC: 35 },
  { property: 'plateTempC', label: m.bed(), said: m.bedTemperature(), stepC: 30 },
  { property: 'dryingTempC', label: m.drying(), said: m.dryingTemperature(), stepC: 25 },
] as const;
/** What the sheet says in words. */
const TOLD = [
  { property: 'difficulty', label: m.toPrint() },
  { property: 'storage', label: m.storage() },
  { property: 'surface', label: m.buildPlate() },
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
    const label = ASKED.find((asked) => asked.property === property)?.said;
    if (!label || one.low === undefined || one.high === undefined) return [];
    return [{ label, value: valueTexts.m.only({ value: celsiusFromTo(one.low, one.high) }) }];
  });
  return {
    task: m.sheetTask({ material: polymer.label }),
    facts: [
      ...shown,
      ...TOLD.flatMap(({ property, label }) => {
        const value = polymer.properties[property]?.value;
        return typeof value === 'string' ? [{ label, value }] : [];
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
          choices: choices.map((one) => ({
            id: String(one),
            label: valueTexts.m.only({ value: celsius(one, decimalsOf(one)) }),
          })),
          right: () => [String(inside)],
          why: () => m.sheetSays({ range: celsiusFromTo(low, high) }),
        },
      ];
    }),
  };
}
