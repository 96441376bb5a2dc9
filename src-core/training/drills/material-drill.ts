import type { z } from 'zod';
import { applicationSchema, type MaterialFit } from '../../contract/material-fit.ts';
import { reportOnFit } from '../../fit/index.ts';
import type { Knowledge } from '../../knowledge/knowledge.ts';
import type { Random } from '../seeded-random.ts';
import { pickOne, shuffled, type SetDrill } from './drill-question.ts';
import { drillTexts } from '../../words/en/drills.ts';
import type { Message, Words } from '../../words/message.ts';

const { m } = drillTexts;

/** Parts that are asked about, each with what it has to bear. */
export const DRILL_PARTS: readonly {
  readonly what: Message;
  readonly use: z.input<typeof applicationSchema>;
}[] = [
  {
    what: m.partVan(),
    use: { serviceTemperatureC: 90, steadyLoad: 'light' },
  },
  { what: m.partClip(), use: { serviceTemperatureC: 55, isOutdoors: true, impact: 'knocks' } },
  { what: m.partJig(), use: { serviceTemperatureC: 70, stiffness: 'rigid' } },
  { what: m.partGripper(), use: { serviceTemperatureC: 40, stiffness: 'rubbery' } },
  { what: m.partBush(), use: { serviceTemperatureC: 50, sliding: 'steady' } },
  { what: m.partMotorCover(), use: { serviceTemperatureC: 70, impact: 'blows' } },
  { what: m.partChamber(), use: { serviceTemperatureC: 75, steadyLoad: 'heavy' } },
  { what: m.partSprayHead(), use: { serviceTemperatureC: 80, agents: ['water'] } },
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
    task: [part.what, m.materialTask({ material: ruledOut.label })],
    facts: demands.map(({ label }) => ({ label: m.hasToBear(), value: label })),
    questions: [
      {
        id: 'material',
        label: m.material(),
        choices: offered.map(({ polymer, label }) => ({ id: polymer, label })),
        right: () => [best.polymer],
        why: (given) => why(given),
      },
      {
        id: 'against',
        label: m.rulesOut({ material: ruledOut.label }),
        choices: demands.map(({ demand, label }) => ({ id: demand, label })),
        right: () => fails.map(({ demand }) => demand),
        why: () => words(ruledOut),
      },
    ],
  };
}

function words(fit: MaterialFit | undefined): Words {
  if (!fit) return '';
  const failing = fit.judgements.filter(({ verdict }) => verdict === 'does-not-suit');
  const told = failing.length > 0 ? failing : fit.judgements;
  return [m.of({ material: fit.label }), ...told.flatMap(({ reason }) => reason)];
}
