import type { z } from 'zod';
import { applicationSchema, type MaterialFit } from '../../contract/material-fit.ts';
import { reportOnFit } from '../../fit/index.ts';
import type { Knowledge } from '../../knowledge/knowledge.ts';
import type { Random } from '../seeded-random.ts';
import { pickOne, shuffled, type SetDrill } from './drill-question.ts';
import { inEnglish } from '../../words/in-english.ts';

/** Parts that are asked about, each with what it has to bear. */
export const DRILL_PARTS: readonly {
  readonly what: string;
  readonly use: z.input<typeof applicationSchema>;
}[] = [
  {
    what: 'A bracket under the bonnet of a delivery van',
    use: { serviceTemperatureC: 90, steadyLoad: 'light' },
  },
  { what: 'A clip on a garden fence', use: { serviceTemperatureC: 55, isOutdoors: true, impact: 'knocks' } },
  { what: 'A drilling jig beside a paint oven', use: { serviceTemperatureC: 70, stiffness: 'rigid' } },
  { what: 'A gripper pad that has to give', use: { serviceTemperatureC: 40, stiffness: 'rubbery' } },
  { what: 'A bush that runs all day', use: { serviceTemperatureC: 50, sliding: 'steady' } },
  { what: 'A motor cover that takes blows', use: { serviceTemperatureC: 70, impact: 'blows' } },
  { what: 'A holder in a hot print chamber', use: { serviceTemperatureC: 75, steadyLoad: 'heavy' } },
  { what: 'A spray head for hot water', use: { serviceTemperatureC: 80, agents: ['water'] } },
];
const SHELF = ['pla', 'petg', 'abs', 'asa', 'tpu', 'pa6', 'pa12', 'pc', 'pp', 'pctg', 'hips'] as const;
const CHOICES = 4;

/** A part and four materials: pick one, and say what rules out another. Graded by the program's own judgement of fit. */
export function materialDrill(knowledge: Knowledge, random: Random): SetDrill | null {
  const part = pickOne(DRILL_PARTS, random);
  const application = applicationSchema.parse(part.use);
  const { materials } = reportOnFit(knowledge, { application, filler: 'none', failedPart: null });
  const shelf = materials.filter(({ polymer }) => SHELF.some((id) => id === polymer));
  const fitting = shelf.filter(({ verdict }) => verdict === 'suits' || verdict === 'suits-with-limits');
  const failing = shelf.filter(({ verdict }) => verdict === 'does-not-suit');
  if (fitting.length === 0 || failing.length < CHOICES - 1) return null;
  const best = fitting[0];
  if (!best) return null;
  const offered = shuffled([best, ...shuffled(failing, random).slice(0, CHOICES - 1)], random);
  const ruledOut = pickOne(
    offered.filter((one) => one !== best),
    random,
  );
  const fails = ruledOut.judgements.filter(({ verdict }) => verdict === 'does-not-suit');
  const demands = best.judgements;
  if (fails.length >= demands.length) return null;
  const why = (polymer: string) => words(offered.find((one) => one.polymer === polymer));
  return {
    task: `${part.what}. Which of these spools do you take, and what speaks against ${ruledOut.label}?`,
    facts: demands.map(({ label }) => ({ label: 'It has to bear', value: inEnglish(label) })),
    questions: [
      {
        id: 'material',
        label: 'The material',
        choices: offered.map(({ polymer, label }) => ({ id: polymer, label })),
        right: () => [best.polymer],
        why: (given) => why(given),
      },
      {
        id: 'against',
        label: `What rules out ${ruledOut.label}`,
        choices: demands.map(({ demand, label }) => ({ id: demand, label: inEnglish(label) })),
        right: () => fails.map(({ demand }) => demand),
        why: () => words(ruledOut),
      },
    ],
  };
}

function words(fit: MaterialFit | undefined): string {
  if (!fit) return '';
  const failing = fit.judgements.filter(({ verdict }) => verdict === 'does-not-suit');
  const told = failing.length > 0 ? failing : fit.judgements;
  return `${fit.label}: ${told.map(({ reason }) => inEnglish(reason)).join(' ')}`;
}
