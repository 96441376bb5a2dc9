import { drillTexts } from '../../words/en/drills.ts';
import type { Random } from '../seeded-random.ts';
import { shuffled, type SetDrill } from './drill-question.ts';

const { m } = drillTexts;

/** A print's stations of the day. Common practice: each makes sense only after the one before. */
const STATIONS = [
  {
    id: 'dry',
    label: m.dry(),
    why: m.whyDry(),
  },
  {
    id: 'look',
    label: m.look(),
    why: m.whyLook(),
  },
  {
    id: 'load',
    label: m.load(),
    why: m.whyLoad(),
  },
  {
    id: 'purge',
    label: m.purge(),
    why: m.whyPurge(),
  },
  {
    id: 'watch',
    label: m.watch(),
    why: m.whyWatch(),
  },
  {
    id: 'away',
    label: m.putAway(),
    why: m.whyPutAway(),
  },
] as const;

/** Six stations in the wrong order. */
export function stationsDrill(random: Random): SetDrill {
  const offered = shuffled(STATIONS, random);
  return {
    task: m.stationsTask(),
    facts: [],
    questions: STATIONS.map((station, index) => ({
      id: `place-${index + 1}`,
      label: m.station({ place: index + 1 }),
      choices: offered.map(({ id, label }) => ({ id, label })),
      right: () => [station.id],
      why: () => station.why,
    })),
  };
}
