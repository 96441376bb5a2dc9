import type { DrillKind } from '../../contract/drill-kinds.ts';
import type { DrillAnswer, DrillView } from '../../contract/drill-view.ts';
import type { Knowledge } from '../../knowledge/knowledge.ts';
import { seededRandom, type Random } from '../seeded-random.ts';
import { DRILL_TITLES } from '../../words/drill-titles.ts';
import { DRILL_TOPICS } from './drill-topics.ts';
import type { SetDrill } from './drill-question.ts';
import { dryingDrill } from './drying-drill.ts';
import { materialDrill } from './material-drill.ts';
import { nozzleDrill } from './nozzle-drill.ts';
import { sheetDrill } from './sheet-drill.ts';
import { stationsDrill } from './stations-drill.ts';
import { storageDrill } from './storage-drill.ts';

/** Each sets a drill, or nothing where what was drawn makes no fair question. */
const SETTERS: Readonly<Record<DrillKind, (knowledge: Knowledge, random: Random) => SetDrill | null>> = {
  material: materialDrill,
  drying: dryingDrill,
  nozzle: nozzleDrill,
  storage: storageDrill,
  stations: (_, random) => stationsDrill(random),
  sheet: sheetDrill,
};

const MOST_DRAWS = 200;

/** A drill, the same for the same seed; graded where `answer` answers every question. Throws where the guide gives no fair one. */
export function buildDrill(
  knowledge: Knowledge,
  drill: DrillKind,
  seed: number,
  answer: DrillAnswer | null,
): DrillView {
  const { task, facts, questions } = setDrill(knowledge, drill, seed);
  const isWhole = answer !== null && questions.every(({ id }) => answer[id] !== undefined);
  const graded = isWhole
    ? questions.map(({ id, choices, right, why }) => {
        const given = answer[id] ?? '';
        const good = right(answer);
        const labelOf = (choice: string) => choices.find((one) => one.id === choice)?.label ?? choice;
        return {
          id,
          given: labelOf(given),
          right: good.map(labelOf),
          isRight: good.includes(given),
          why: why(given, answer),
        };
      })
    : null;
  return {
    drill,
    seed,
    title: DRILL_TITLES[drill],
    topic: DRILL_TOPICS[drill],
    task,
    facts: [...facts],
    questions: questions.map(({ id, label, choices }) => ({ id, label, choices: [...choices] })),
    graded: graded && { isRight: graded.every(({ isRight }) => isRight), questions: graded },
  };
}

function setDrill(knowledge: Knowledge, drill: DrillKind, seed: number): SetDrill {
  const random = seededRandom(seed);
  for (let draw = 0; draw < MOST_DRAWS; draw++) {
    const set = SETTERS[drill](knowledge, random);
    if (set) return set;
  }
  throw new Error(`this guide gives no fair drill "${drill}"`);
}
